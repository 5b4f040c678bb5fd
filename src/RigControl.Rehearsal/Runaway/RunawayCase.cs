using RigControl.Model.Rig;
using RigControl.Physics;
using RigControl.Rehearsal.Bench;
using Motor = RigControl.Model.Rig.Motor;
using Pack = RigControl.Model.Rig.Pack;

namespace RigControl.Rehearsal.Runaway;

/// <summary>
/// The most that a rotor can store when everything fails at once: a controller that is shorted, a full pack, full throttle and
/// nothing that drags, each datum of the article at the worse end of what is known of it. What reduces it is only an over-speed
/// cut that was verified, and then by no more than the rotor gains until the power is off.
/// </summary>
/// <param name="Speed">rad/s.</param>
/// <param name="Energy">J.</param>
/// <param name="Cut">The verified cut that bounds it; null where the pack's voltage alone does.</param>
public sealed record RunawayCase(double Speed, double Energy, OverSpeedCut? Cut)
{
    // Standard uncertainties to each side: two of them leave one bench in forty beyond.
    private const double Coverage = 2;

    // Below this share of what is declared, a resistance would be another part.
    private const double Least = 0.2;

    /// <summary>rpm.</summary>
    public double Rpm => Speed * 60 / (2 * Math.PI);

    /// <summary>What an article lacks for it, such as <c>no pack</c>; null where it can be reckoned.</summary>
    public static string? Lack(Article article) => (article.Rotor, article.Motor, article.Pack) switch
    {
        (null, _, _) => "no rotor",
        (_, null, _) => "no motor",
        (_, _, null) => "no pack",
        _ => null,
    };

    /// <summary>The case for an article with rotor, motor and pack.</summary>
    /// <param name="article">As its file declares it.</param>
    /// <param name="cut">What was verified; null for nothing.</param>
    /// <exception cref="ArgumentException">The article lacks a part; see <see cref="Lack"/>.</exception>
    public static RunawayCase Of(Article article, OverSpeedCut? cut)
    {
        if (article is not { Motor: { } motor, Pack: { } pack } || Lack(article) is not null)
            throw new ArgumentException($"the article {article.Name} gives {Lack(article)}");
        Spread spread = Spread.Of(article.Uncertainty);
        // Disc and the motor's bell, as the rehearsal has them.
        double declared = BenchOfArticle.Build(article, windage: 0, charge: 1, ambient: 20).Rotor.Inertia;
        double inertia = declared * (1 + Coverage * spread.Inertia);
        double voltage = FullVoltage(pack);
        double fastest = voltage / TorqueConstant(motor, 1 + Coverage * spread.SpeedConstant);
        double caught = cut is null ? fastest : Caught(motor, pack, spread, declared, cut, voltage);
        return caught < fastest ? new(caught, Stored(inertia, caught), cut) : new(fastest, Stored(inertia, fastest), null);
    }

    // The torque falls with the speed, so that what it is at the limit is the most that it is beyond.
    private static double Caught(Motor motor, Pack pack, Spread spread, double inertia, OverSpeedCut cut, double voltage)
    {
        double limit = cut.Limit * 2 * Math.PI / 60;
        double resistance = motor.WindingResistance * Math.Max(Least, 1 - Coverage * spread.WindingResistance)
            + pack.Resistance * Math.Max(Least, 1 - Coverage * spread.PackResistance);
        double left = Math.Max(0, voltage - TorqueConstant(motor, 1 + Coverage * spread.SpeedConstant) * limit);
        double torque = TorqueConstant(motor, 1 - Coverage * spread.SpeedConstant) * left / resistance;
        double acceleration = torque / (inertia * Math.Max(Least, 1 - Coverage * spread.Inertia));
        return limit + acceleration * cut.Reaction.TotalSeconds;
    }

    private static double TorqueConstant(Motor motor, double factor) => 60 / (2 * Math.PI * motor.SpeedConstant * factor);

    private static double Stored(double inertia, double speed) => 0.5 * inertia * speed * speed;

    /// <summary>
    /// Voltage of a pack just off its charger, V: the voltage per cell at which chargers of its chemistry end (common practice, no
    /// source; IEC 62133-2 has 4.25 V as the upper limit for lithium cells, from memory). An unknown chemistry counts as the highest.
    /// </summary>
    public static double FullVoltage(Pack pack) => pack.Cells * pack.Chemistry switch
    {
        "LiPo" or "LiIon" => 4.20,
        "LiFePO4" => 3.65,
        "NiMH" or "NiCd" => 1.60,
        "lead-acid" => 2.45,
        _ => 4.35,
    };
}
