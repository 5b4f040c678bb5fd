using RigControl.Model.Rig;

namespace RigControl.Physics;

/// <summary>The modelled bench for an article: its file's data where it declares them, the bench's own where it does not.</summary>
public static class BenchOfArticle
{
    /// <param name="article">As its file declares it.</param>
    /// <param name="windage">As a share of a smooth disc's of the same radius.</param>
    /// <param name="charge">Of the pack at the beginning, 0 to 1.</param>
    /// <param name="ambient">Temperature of everything at the beginning, degC.</param>
    public static BenchParameters Build(Article article, double windage, double charge, double ambient)
    {
        BenchParameters plain = new();
        return plain with
        {
            Rotor = RotorOf(article, plain, windage),
            Motor = article.Motor is { } m ? new Motor(m.SpeedConstant, m.WindingResistance, m.NoLoadCurrent) : plain.Motor,
            Controller = ControllerOf(article, plain),
            Pack = article.Pack is { } p ? new Pack(p.Cells, p.Capacity * 3600, p.Resistance) : plain.Pack,
            StateOfCharge = charge,
            AmbientTemperature = ambient,
        };
    }

    // A motor-only article turns its own bell: a thin ring of 30 g at 13.5 mm, too small for windage to matter.
    private static Rotor RotorOf(Article article, BenchParameters plain, double windage)
    {
        double bell = Body.ThinRing(0.030, 0.0135).Inertia;
        return article.Rotor is { } rotor
            ? plain.Rotor with { Inertia = rotor.Inertia + bell, TipRadius = rotor.TipRadius, WindageShare = windage }
            : plain.Rotor with { Inertia = bell, TipRadius = 0.0135, WindageShare = windage };
    }

    private static SpeedController ControllerOf(Article article, BenchParameters plain)
    {
        ControllerProfile profile = article.Controller;
        return plain.Controller with
        {
            Mode = (ControllerMode)profile.Mode,
            StopPulse = profile.StopPulse,
            MinimumPulse = profile.MinimumPulse,
            MaximumPulse = profile.MaximumPulse,
            Reversed = profile.Direction == PulseDirection.Shorter,
            ArmingTime = profile.ArmingTime.TotalSeconds,
            BrakesAtStop = profile.BrakesAtStop,
            RunsOnWithoutPulses = profile.WhenPulsesCease == CeasedPulseBehaviour.RunsOn,
            CurrentLimit = article.Motor?.CurrentLimit ?? plain.Controller.CurrentLimit,
        };
    }
}
