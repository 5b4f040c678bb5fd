using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>tachometer-jump</c>.</summary>
public sealed class TachometerJumpOptions
{
    /// <summary>Channel of the speed, in rpm. Default rotor.speed.</summary>
    [ChannelName, Meaning("Channel of the speed.")]
    public string Channel { get; set; } = ChannelNames.RotorSpeed;

    /// <summary>Largest change of speed that the rotor can make in <see cref="Within"/>, in rpm, 1 to 200000. Required.</summary>
    [Quantity("rpm", 1, 200_000), Meaning("Largest change of speed that the rotor can make in the time given.")]
    public double Change { get; set; } = double.NaN;

    /// <summary>Time to which that change belongs, in s, 0.001 to 60. Required.</summary>
    [Quantity("s", 0.001, 60), Meaning("Time to which that change belongs.")]
    public double Within { get; set; } = double.NaN;

    /// <summary>How far from twice or half a jump may be and still count as one, in %, 1 to 30: it says how jumps are known, and limits nothing. Default 20 %.</summary>
    [Quantity("%", 1, 30), Meaning("How far from twice or half a jump may be and still count as one.")]
    public double Band { get; set; } = 20;
}

/// <summary>Makes <c>tachometer-jump</c>.</summary>
public sealed class TachometerJumpPlugin : InterlockPlugin<TachometerJumpOptions>
{
    public override string Kind => "tachometer-jump";

    public override string Meaning => "The tachometer neither counts pulses twice nor misses every other one.";

    public override string Requirement => "SAF-054";

    public override bool AlwaysCutsPower => true;

    protected override IInterlock Create(TachometerJumpOptions options, InterlockContext context) => new TachometerJump(
        context.Require(options.Channel, "rpm"), options.Change / options.Within, options.Band / 100, context.Action);
}

/// <summary>
/// A reading about twice or half of the one before, sooner than the rotor can get there, is a fault of the tachometer and is
/// not believed. With one mark a revolution a reading may be one revolution old, so that this long is granted besides.
/// </summary>
/// <param name="perSecond">Fastest change of the rotor's speed, rpm/s.</param>
/// <param name="band">Share by which a jump may miss a factor of two.</param>
internal sealed class TachometerJump(Channel channel, double perSecond, double band, DemandAction action) : ChannelInterlock(channel, action)
{
    public const ushort Doubled = 1;
    public const ushort Missed = 2;

    private const long Started = 1;
    private const double SecondsPerMinute = 60;

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        InOrder readings = InOrder.Of(entry);
        Demand first = Follow(readings.First, input.Now, ref memory);
        return first.Action == DemandAction.Proceed ? Follow(readings.Then, input.Now, ref memory) : first;
    }

    protected override string Describe(in Demand demand)
    {
        string reading = Words.Reading(Channel, demand.Value, demand.Limit);
        return demand.Reason switch
        {
            0 => $"{reading} follows from the reading before",
            Doubled => $"{reading} is about twice the {Words.Quantity(demand.Limit, "rpm")} before, sooner than the rotor can get there: pulses are counted twice",
            _ => $"{reading} is about half of the {Words.Quantity(demand.Limit, "rpm")} before, sooner than the rotor can get there: pulses are missed",
        };
    }

    // A is the latest reading that was believed, Since when it was taken. What is not believed now may be later, once the
    // rotor has had the time.
    private Demand Follow(Extreme reading, TimeSpan now, ref InterlockMemory memory)
    {
        double before = memory.A;
        TimeSpan at = Stamp.Between(memory.Since, reading.At, now);
        if (memory.Flags == Started && IsJump(before, reading.Size, at - memory.Since))
            return Object(reading.Size > before ? Doubled : Missed, reading.Size, before, 0, at);
        (memory.A, memory.Since, memory.Flags) = (reading.Size, at, Started);
        return Proceed(reading.Size, before, 1, at);
    }

    private bool IsJump(double before, double after, TimeSpan between)
    {
        double low = Math.Min(before, after);
        double high = Math.Max(before, after);
        double possible = perSecond * (between.TotalSeconds + SecondsPerMinute / low);
        return low > 0 && high >= 2 * (1 - band) * low && high <= 2 * (1 + band) * low && high - low > possible;
    }
}
