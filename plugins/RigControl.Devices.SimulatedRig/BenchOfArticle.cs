using RigControl.Model.Rig;
using RigControl.Physics;
using Pulse = RigControl.Model.Rig.PulseDirection;

namespace RigControl.Devices.SimulatedRig;

/// <summary>The modelled bench for an article: its file's data where it declares them, the bench's own where it does not.</summary>
internal static class BenchOfArticle
{
    public static BenchParameters Build(Article article, SimulatedRigOptions options)
    {
        BenchParameters plain = new();
        return plain with
        {
            Rotor = RotorOf(article, plain, options.Windage / 100),
            Motor = article.Motor is { } m ? new Physics.Motor(m.SpeedConstant, m.WindingResistance, m.NoLoadCurrent) : plain.Motor,
            Controller = Really(ControllerOf(article, plain), options),
            Pack = article.Pack is { } p ? new Physics.Pack(p.Cells, p.Capacity * 3600, p.Resistance) : plain.Pack,
            StateOfCharge = options.StateOfCharge / 100,
            AmbientTemperature = options.Ambient,
        };
    }

    // A motor-only article turns its own bell: a thin ring of 30 g at 13.5 mm, too small for windage to matter.
    private static Physics.Rotor RotorOf(Article article, BenchParameters plain, double windage)
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
            Mode = (Physics.ControllerMode)profile.Mode,
            StopPulse = profile.StopPulse,
            MinimumPulse = profile.MinimumPulse,
            MaximumPulse = profile.MaximumPulse,
            Reversed = profile.Direction == Pulse.Shorter,
            ArmingTime = profile.ArmingTime.TotalSeconds,
            BrakesAtStop = profile.BrakesAtStop,
            RunsOnWithoutPulses = profile.WhenPulsesCease == CeasedPulseBehaviour.RunsOn,
            CurrentLimit = article.Motor?.CurrentLimit ?? plain.Controller.CurrentLimit,
        };
    }

    // A controller whose range is another than the one declared, to be found out.
    private static SpeedController Really(SpeedController declared, SimulatedRigOptions options)
    {
        SpeedController really = options.RangeBeginsAt == 0 ? declared : declared with { Deadband = Math.Abs(options.RangeBeginsAt - declared.StopPulse) };
        if (options.RangeEndsAt == 0)
            return really;
        // What lies beyond its end it takes for the end.
        const double anyPulse = 2500;
        return declared.Reversed
            ? really with { MinimumPulse = options.RangeEndsAt, Tolerance = anyPulse }
            : really with { MaximumPulse = options.RangeEndsAt, Tolerance = anyPulse };
    }
}
