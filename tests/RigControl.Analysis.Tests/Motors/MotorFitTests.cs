using RigControl.Analysis.Figures;
using RigControl.Analysis.Motors;
using RigControl.Analysis.Tests.Support;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Motors;

public class MotorFitTests
{
    private const double Kt = 0.00955, Resistance = 0.1;

    /// <summary>Source: Kt = 60 / (2 π Kv), derived; voltage = resistance × current + Kt × speed.</summary>
    [Fact]
    public void Levels_at_different_loads_give_back_kv_and_resistance()
    {
        MotorFit fit = MotorFit.Of(Moments(seed: 81, noise: 0.05, limited: 0));
        Holds(60 / (2 * Math.PI * Kt), fit.SpeedConstant);
        Holds(Resistance, fit.Resistance);
        Assert.True(fit.Resistance.Uncertainty < 0.05 * Resistance);
    }

    [Fact]
    public void Moments_at_the_limit_of_the_controller_are_left_out()
    {
        MotorFit fit = MotorFit.Of(Moments(seed: 82, noise: 0.05, limited: 60));
        Near.Relative(Resistance, fit.Resistance.Value, 0.05);
        Near.Relative(Kt, fit.EmfConstant.Value, 0.01);
    }

    [Fact]
    public void Scatter_of_the_current_does_not_make_the_resistance_small()
    {
        double mean = Enumerable.Range(0, 40).Average(i => MotorFit.Of(Moments((ulong)(83 + i), noise: 1.5, limited: 0)).Resistance.Value);
        Near.Relative(Resistance, mean, 0.06, "mean of 40 seeds from 83");
    }

    [Fact]
    public void A_current_that_never_changed_beside_the_speed_gives_a_reason() =>
        Assert.Throws<NoFigureException>(() => MotorFit.Of([.. Enumerable.Range(0, 50).Select(i => new DriveMoment(i, 0.5, 12 + 1e-3 * (i % 2), 2 + 0.1 * (i % 3), 600))]));

    private static void Holds(double truth, Measured found) => Assert.InRange(truth, found.Value - 4 * found.Uncertainty, found.Value + 4 * found.Uncertainty);

    private static DriveMoment[] Moments(ulong seed, double noise, int limited)
    {
        SplitMix chance = new(seed);
        return [.. Enumerable.Range(0, 400).Select(i =>
        {
            double current = 2 + 18 * (i / 400.0), speed = (6 + 5 * Math.Sin(i * 0.1)) / Kt * 0.1 + 500;
            double duty = (Resistance * current + Kt * speed) / 12;
            // A controller at its limit gives less than the demand says.
            double demand = i < limited ? duty + 0.1 : duty;
            return new DriveMoment(i * 0.01, demand, 12, (current + noise * chance.Bell()) * demand, speed);
        })];
    }
}
