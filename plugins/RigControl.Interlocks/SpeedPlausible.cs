using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>speed-plausible</c>.</summary>
public sealed class SpeedPlausibleOptions
{
    /// <summary>Channel of the speed, in rpm. Default rotor.speed.</summary>
    [ChannelName, Meaning("Channel of the speed.")]
    public string Speed { get; set; } = ChannelNames.RotorSpeed;

    /// <summary>Channel of the voltage that drives, in V. Default battery.voltage.</summary>
    [ChannelName, Meaning("Channel of the voltage that drives.")]
    public string Voltage { get; set; } = ChannelNames.BatteryVoltage;

    /// <summary>Speed per volt of the shaft that the speed is read on, gearing included, in rpm/V, 0.1 to 100000. Required.</summary>
    [Quantity("rpm/V", 0.1, 100_000), Meaning("Speed per volt of the shaft that the speed is read on, gearing included.")]
    public double SpeedConstant { get; set; } = double.NaN;

    /// <summary>How far above that speed a reading is still believed, in %, 0 to 50: for errors of the sensors and of the constant. Default 0 %.</summary>
    [Quantity("%", 0, 50), Meaning("How far above that speed a reading is still believed.")]
    public double Allowance { get; set; }
}

/// <summary>Makes <c>speed-plausible</c>.</summary>
public sealed class SpeedPlausiblePlugin : InterlockPlugin<SpeedPlausibleOptions>
{
    public override string Kind => "speed-plausible";

    public override string Meaning => "No speed is read that the voltage cannot have brought about.";

    public override string Requirement => "SAF-053";

    public override bool AlwaysCutsPower => true;

    protected override IInterlock Create(SpeedPlausibleOptions options, InterlockContext context) => new SpeedPlausible(
        context.Require(options.Speed, "rpm"), context.Require(options.Voltage, "V"),
        options.SpeedConstant * (1 + options.Allowance / 100), context.Action);
}

/// <summary>
/// A rotor is driven no faster than speed constant times voltage. One that runs down after the voltage fell may be faster,
/// but only as long as it gets slower: the ceiling comes down with it and never goes up again without the voltage.
/// </summary>
internal sealed class SpeedPlausible(Channel speed, Channel voltage, double perVolt, DemandAction action) : PairInterlock(speed, voltage, action)
{
    public const ushort Impossible = 1;

    protected override Demand Judge(in ImageEntry speed, in ImageEntry voltage, in InterlockInput input, ref InterlockMemory memory)
    {
        Extreme fastest = Extreme.Of(speed);
        double ceiling = Math.Max(perVolt * voltage.Maximum, Math.Min(memory.A, fastest.Size));
        memory.A = ceiling;
        double margin = ceiling > 0 ? Margin.Under(fastest.Size, ceiling) : -fastest.Size;
        return fastest.Size <= ceiling
            ? Demand.Proceed(First.Index, fastest.Value, ceiling, margin, fastest.At)
            : Object(Impossible, First, fastest.Value, ceiling, margin, fastest.At);
    }

    protected override string Describe(in Demand demand)
    {
        string reading = Words.Reading(First, Math.Abs(demand.Value), demand.Limit);
        return demand.Reason == 0
            ? $"{reading} is within the {Words.Quantity(demand.Limit, "rpm")} that its voltage can have brought about"
            : $"{reading} cannot be: the voltage can have brought about {Words.Quantity(demand.Limit, "rpm")} at most; look at tachometer and marks";
    }
}
