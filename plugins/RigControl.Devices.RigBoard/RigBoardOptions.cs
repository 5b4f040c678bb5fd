using RigControl.Contracts;

namespace RigControl.Devices.RigBoard;

/// <summary>
/// Options of the rig board: what is wired to it and what it watches by itself. What the article's file declares comes from
/// there. Limits and scales have no default, since only the builder knows them; where there is a default for what the board
/// watches, it is the strictest value or common practice without a source, and says which.
/// </summary>
public sealed class RigBoardOptions
{
    /// <summary>Serial port of the board, such as /dev/ttyUSB0. Required.</summary>
    [Meaning("Serial port of the board, such as /dev/ttyUSB0.")]
    public string Port { get; set; } = "";

    /// <summary>Servo pulses a second, Hz, 50 to 400, default 50, which every controller takes.</summary>
    [Meaning("Servo pulses a second; 50 is what every controller takes, more shortens the reaction.")]
    [Quantity("Hz", 50, 400)]
    public double ServoRate { get; set; } = 50;

    /// <summary>What a trip of the board puts out, default stop pulses.</summary>
    [Meaning("What a trip of the board puts out: stop pulses, or no pulses where the controller is known to stop without them.")]
    public TripOutput OnTrip { get; set; }

    /// <summary>Whether a tachometer is fitted, default yes. Without one there is no speed, and the longest coast-down is waited for.</summary>
    [Meaning("Whether a tachometer is fitted; without one there is no speed, and the longest coast-down is waited for.")]
    public bool Tachometer { get; set; } = true;

    /// <summary>Tachometer pulses in one revolution, 1 to 16, default 1, with which a speed is never read too low.</summary>
    [Meaning("Tachometer pulses in one revolution.")]
    [Count(1, 16)]
    public int PulsesPerRevolution { get; set; } = 1;

    /// <summary>Speed above which the board stops by itself, rpm, 15 to 120000. Required.</summary>
    [Meaning("Speed above which the board stops by itself.")]
    [Quantity("rpm", 15, 120_000)]
    public double OverSpeed { get; set; } = double.NaN;

    /// <summary>Time without a tachometer pulse, while driven, after which the board stops by itself, s, 0.02 to 10. Required.</summary>
    [Meaning("Time without a tachometer pulse, while driven, after which the board stops by itself.")]
    [Quantity("s", 0.02, 10)]
    public double TachometerLostAfter { get; set; } = double.NaN;

    /// <summary>Throttle from which the tachometer is watched, %, 0 to 50, default 0: the strictest, any throttle at all.</summary>
    [Meaning("Throttle from which the tachometer is watched; 0 is any throttle at all.")]
    [Quantity("%", 0, 50)]
    public double TachometerWatchedFrom { get; set; }

    /// <summary>Current, in either direction, above which the board stops by itself, A, 0.01 to 1000. Required.</summary>
    [Meaning("Current, in either direction, above which the board stops by itself.")]
    [Quantity("A", 0.01, 1000)]
    public double OverCurrent { get; set; } = double.NaN;

    /// <summary>Time for which the current may be above its limit without a break, s, 0 to 0.05, default 0: a single reading trips.</summary>
    [Meaning("Time for which the current may be above its limit without a break; 0 trips at a single reading.")]
    [Quantity("s", 0, 0.05)]
    public double OverCurrentFor { get; set; }

    /// <summary>Time in which the contactor's feedback must follow, s, 0.02 to 0.5, default 0.1 (common practice, no source).</summary>
    [Meaning("Time in which the contactor's feedback must follow.")]
    [Quantity("s", 0.02, 0.5)]
    public double ContactorTime { get; set; } = 0.1;

    /// <summary>Longest time for which the lid contacts may contradict each other, s, 0.01 to 0.5, default 0.1 (common practice, no source).</summary>
    [Meaning("Longest time for which the two lid contacts may contradict each other.")]
    [Quantity("s", 0.01, 0.5)]
    public double LidDisagreement { get; set; } = 0.1;

    /// <summary>Time for which a contact must read closed before it is believed, s, 0.006 to 0.2, default 0.02 (common practice, no source).</summary>
    [Meaning("Time for which a contact must read closed before it is believed; an opening always counts at once.")]
    [Quantity("s", 0.006, 0.2)]
    public double ClosingFilter { get; set; } = 0.02;

    /// <summary>Voltage that would read 1024 counts, V, 1 to 200. Required.</summary>
    [Meaning("Pack voltage at the end of the converter's range.")]
    [Quantity("V", 1, 200)]
    public double VoltageFullScale { get; set; } = double.NaN;

    /// <summary>Current that would read 512 counts above mid-scale, which is 0 A; A, 1 to 1000. Required.</summary>
    [Meaning("Pack current at the end of the converter's range; the middle of the range is 0 A.")]
    [Quantity("A", 1, 1000)]
    public double CurrentFullScale { get; set; } = double.NaN;

    /// <summary>Resistance of both thermistors at 25 degC, Ohm, 100 to 1000000. Required.</summary>
    [Meaning("Resistance of the thermistors at 25 degC.")]
    [Quantity("Ohm", 100, 1_000_000)]
    public double ThermistorResistance { get; set; } = double.NaN;

    /// <summary>B value of both thermistors, K, 1000 to 8000. Required.</summary>
    [Meaning("B value of the thermistors, from their data sheet.")]
    [Quantity("K", 1000, 8000)]
    public double ThermistorBeta { get; set; } = double.NaN;

    /// <summary>Resistance between the supply and each thermistor, Ohm, 100 to 1000000. Required.</summary>
    [Meaning("Resistance between the supply and each thermistor.")]
    [Quantity("Ohm", 100, 1_000_000)]
    public double ThermistorSeries { get; set; } = double.NaN;
}

/// <summary>What the board puts out once it has tripped.</summary>
public enum TripOutput
{
    /// <summary>Stop pulses go on.</summary>
    StopPulse,

    /// <summary>No pulses.</summary>
    NoPulses,
}
