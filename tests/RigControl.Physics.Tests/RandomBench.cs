namespace RigControl.Physics.Tests;

/// <summary>Benches, drives and faults drawn by a seed.</summary>
internal static class RandomBench
{
    public static BenchParameters Parameters(ref SplitMix chance)
    {
        var mode = (ControllerMode)(chance.Next() % 2);
        return new BenchParameters
        {
            Rotor = new Rotor(chance.Uniform(3e-5, 2e-3), chance.Uniform(0, 0.15), Drag(ref chance), chance.Uniform(0, 2)),
            Motor = new Motor(chance.Uniform(300, 2500), chance.Uniform(0.02, 0.3), chance.Uniform(0, 3)),
            Controller = new SpeedController
            {
                Mode = mode,
                StopPulse = mode == ControllerMode.OneWay ? 1000 : 1500,
                ArmingTime = 0.2,
                BrakesAtStop = Happens(0.3, ref chance),
                RunsOnWithoutPulses = Happens(0.2, ref chance),
                CurrentLimit = chance.Uniform(5, 120),
            },
            Pack = new Pack(1 + (int)(chance.Next() % 6), chance.Uniform(50, 10_000), chance.Uniform(0, 0.2)),
            StateOfCharge = chance.Uniform(),
        };
    }

    /// <summary>Mostly sensible, at times anything.</summary>
    public static BenchDrive Drive(SpeedController controller, ref SplitMix chance)
    {
        double some = Happens(0.9, ref chance) ? chance.Uniform(1000, 2000) : chance.Uniform(0, 3000);
        double pulse = Happens(0.5, ref chance) ? controller.StopPulse : some;
        return new BenchDrive(Happens(0.1, ref chance) ? 0 : pulse, Happens(0.75, ref chance), Happens(0.3, ref chance));
    }

    public static BenchFaults Faults(ref SplitMix chance)
    {
        if (Happens(0.5, ref chance))
            return default;
        return new BenchFaults
        {
            LidPulled = Happens(0.3, ref chance),
            LidForced = Happens(0.1, ref chance),
            LidContactA = Contact(ref chance),
            LidContactB = Contact(ref chance),
            StopPressed = Happens(0.1, ref chance),
            StopContact = Contact(ref chance),
            RadioLost = Happens(0.1, ref chance),
            ContactorWelded = Happens(0.1, ref chance),
            ContactorDead = Happens(0.1, ref chance),
            BoltStuck = Happens(0.1, ref chance),
            ActuatorDelay = Happens(0.1, ref chance) ? chance.Uniform(0, 0.5) : 0,
            StuckPulse = Happens(0.1, ref chance) ? chance.Uniform(800, 2200) : 0,
            ControllerRunaway = Happens(0.1, ref chance),
            ControllerShorted = Happens(0.1, ref chance),
            RotorJammed = Happens(0.1, ref chance),
            AddedFriction = Happens(0.1, ref chance) ? chance.Uniform(0, 0.05) : 0,
            Tachometer = (TachometerFault)(Happens(0.3, ref chance) ? chance.Next() % 4 : 0),
            AddedHeat = Happens(0.1, ref chance) ? chance.Uniform(0, 50) : 0,
        };
    }

    private static Drag Drag(ref SplitMix chance)
        => new(chance.Uniform(0, 0.01), chance.Uniform(0, 1e-5), chance.Uniform(0, 1e-7), chance.Uniform(0, 0.02));

    private static ContactFault Contact(ref SplitMix chance) => (ContactFault)(Happens(0.15, ref chance) ? chance.Next() % 3 : 0);

    private static bool Happens(double share, ref SplitMix chance) => chance.Uniform() < share;
}
