namespace RigControl.Physics;

/// <summary>
/// Everything that makes one bench. The defaults are <c>disc-180</c>, a scenario of our own: a plain 180 g steel disc of 90 mm
/// on a bench motor in a polycarbonate box. At full throttle it reaches about 12,400 rpm and stores about 160 J.
/// The values are plausible for the parts named; they are no one's measured data.
/// </summary>
public sealed record BenchParameters
{
    /// <summary>Disc and the motor's bell (30 g at 13.5 mm) on one shaft; two small sealed bearings.</summary>
    public Rotor Rotor { get; init; } = new(
        (Body.Disc(0.180, 0.045) + Body.ThinRing(0.030, 0.0135)).Inertia,
        TipRadius: 0.045,
        new Drag(Constant: 0.0015, Linear: 1e-6, Quadratic: 0, Breakaway: 0.003),
        WindageShare: 1);

    public Motor Motor { get; init; } = new(SpeedConstant: 1000, Resistance: 0.060, NoLoadCurrent: 1.2);

    /// <summary>Winding and case.</summary>
    public Heat MotorHeat { get; init; } = new(InnerCapacity: 12, OuterCapacity: 60, InnerToOuter: 1.5, OuterToAmbient: 0.6);

    public SpeedController Controller { get; init; } = new();

    /// <summary>Transistors and board.</summary>
    public Heat ControllerHeat { get; init; } = new(InnerCapacity: 4, OuterCapacity: 25, InnerToOuter: 2, OuterToAmbient: 0.4);

    /// <summary>3S, 1.3 Ah.</summary>
    public Pack Pack { get; init; } = new(Cells: 3, Capacity: 1.3 * 3600, Resistance: 0.030);

    /// <summary>Core and wrapping of the pack.</summary>
    public Heat PackHeat { get; init; } = new(InnerCapacity: 90, OuterCapacity: 20, InnerToOuter: 2, OuterToAmbient: 0.4);

    /// <summary>State of charge at the beginning, 0 to 1.</summary>
    public double StateOfCharge { get; init; } = 1;

    public Enclosure Enclosure { get; init; } = new(
        ContactorClosing: 0.020, ContactorOpening: 0.012, BoltReleasing: 0.080, BoltReturning: 0.060);

    /// <summary>One mark, timed to half a microsecond.</summary>
    public Tachometer Tachometer { get; init; } = new(PulsesPerRevolution: 1, TimerTick: 0.5e-6, Jitter: 2e-6);

    public Air Air { get; init; } = Air.AtTwentyDegrees;

    /// <summary>degC, −60 to 150, and the temperature of everything at the beginning.</summary>
    public double AmbientTemperature { get; init; } = 20;

    /// <summary>What holds a jammed rotor, N.m.</summary>
    public double JamTorque { get; init; } = 5;
}
