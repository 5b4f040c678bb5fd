using RigControl.Physics;

namespace RigControl.Surveys;

/// <summary>One simulated run as chance drew it: the bench, what is asked of it, and how well it is watched.</summary>
internal sealed record Plan
{
    public const double RpmToRadPerSecond = Math.PI / 30;

    public required ulong Seed { get; init; }

    public required BenchParameters Bench { get; init; }

    /// <summary>Share of full at the hold.</summary>
    public required double Level { get; init; }

    /// <summary>s.</summary>
    public required double Ramp { get; init; }

    /// <summary>s from the rise to the stop output.</summary>
    public required double On { get; init; }

    /// <summary>Moment of the rise, s; between two samples of anything.</summary>
    public required double Rise { get; init; }

    /// <summary>Noise of voltage, V, of current, A, and of temperature, K.</summary>
    public required (double Voltage, double Current, double Temperature) Noise { get; init; }

    /// <summary>Time between samples of speed and throttle, s.</summary>
    public required double SpeedPeriod { get; init; }

    /// <summary>Time between samples of voltage and current, s.</summary>
    public required double PackPeriod { get; init; }

    /// <summary>Step of the speed, rpm.</summary>
    public required double SpeedStep { get; init; }

    public double Stop => Rise + On;

    /// <summary>Draws a plan. Everything that a builder cannot know varies; drag is a polynomial, so that its terms have a truth.</summary>
    public static Plan Of(ulong seed)
    {
        SplitMix chance = new(seed * 7919 + 13);
        double Between(double low, double high) => chance.Uniform(low, high);
        double inertia = Between(1.2e-4, 4e-4);
        double rest = Between(0.002, 0.012);
        Drag drag = new(rest, Between(0.5e-6, 8e-6), Between(0.5e-8, 3e-8), rest);
        Plan plan = new()
        {
            Seed = seed,
            Bench = new BenchParameters
            {
                Rotor = new Rotor(inertia, Between(0.04, 0.06), drag, WindageShare: 0),
                Motor = new Motor(Between(700, 1200), Between(0.04, 0.12), Between(0.5, 1.5)),
                Controller = new SpeedController { Deadband = 0, DutyRise = 20, IdleCurrent = Between(0.02, 0.1), CurrentLimit = Between(18, 60) },
                Pack = new RigControl.Physics.Pack(3, 1.3 * 3600, Between(0.015, 0.06)),
                StateOfCharge = Between(0.5, 0.95),
                Tachometer = new Tachometer((int)Between(1, 3.999), 0.5e-6, Between(1e-6, 20e-6)),
                AmbientTemperature = Between(10, 30),
                // The record begins with the power on: before that a pack stands a little higher, for a few samples that nobody would miss.
                Enclosure = new Enclosure(0, 0.012, 0.080, 0.060),
            },
            Level = Between(0.35, 0.8),
            Ramp = Between(0.2, 1.5),
            On = Between(5, 8),
            Rise = Between(1.5, 2),
            Noise = (Between(0.002, 0.02), Between(0.02, 0.15), Between(0.05, 0.3)),
            SpeedPeriod = 0.005,
            PackPeriod = chance.Uniform() < 0.5 ? 0.005 : 0.01,
            SpeedStep = chance.Uniform() < 0.5 ? 0.1 : 1,
        };
        // A winding of ten to fifty grams of copper.
        return plan with { Bench = plan.Bench with { MotorHeat = plan.Bench.MotorHeat with { InnerCapacity = Between(4, 20) } } };
    }
}
