using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>rehearsed-band</c>.</summary>
public sealed class RehearsedBandOptions
{
    /// <summary>Channel that is held against its rehearsal, such as rotor.speed. Required.</summary>
    [ChannelName, Meaning("Channel that is held against its rehearsal: rotor.speed, battery.current, battery.voltage, motor.temperature or controller.temperature.")]
    public string Channel { get; set; } = "";

    /// <summary>How far beyond the band the channel may go, in % of the band's largest value, 0 to 100. Required.</summary>
    [Quantity("%", 0, 100), Meaning("How far beyond the band the channel may go, as a share of the band's largest value.")]
    public double Beyond { get; set; } = double.NaN;

    /// <summary>How long the channel may be further out than that, in s, 0 to 10, default 0.1: no two runs take their steps at quite the same moment.</summary>
    [Quantity("s", 0, 10), Meaning("How long the channel may be further out than that.")]
    public double For { get; set; } = 0.1;
}

/// <summary>Makes <c>rehearsed-band</c>.</summary>
public sealed class RehearsedBandPlugin : InterlockPlugin<RehearsedBandOptions>
{
    public override string Kind => "rehearsed-band";

    public override string Meaning => "The run goes as it was rehearsed.";

    public override string Requirement => "SAF-067";

    protected override IInterlock Create(RehearsedBandOptions options, InterlockContext context)
    {
        Channel channel = context.Require(options.Channel);
        RehearsedBand? band = context.Rehearsed.FirstOrDefault(b => b.Channel == options.Channel);
        return new BandInterlock(channel, band, options.Beyond / 100, TimeSpan.FromSeconds(options.For), context.Action);
    }
}

/// <summary>Memory: since when the channel is out. Value of its demands is the reading, limit the end of the widened band that it is nearer to.</summary>
internal sealed class BandInterlock(Channel channel, RehearsedBand? band, double beyond, TimeSpan allowed, DemandAction action) : ChannelInterlock(channel, action)
{
    public const ushort NotRehearsed = 1;
    public const ushort Below = 2;
    public const ushort Above = 3;
    public const ushort TooLong = 4;

    private readonly double _room = beyond * Largest(band);

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        if (band is null || (input.Step < band.Steps.Count ? band.Steps[input.Step] : null) is not { } step)
            return Demand.Object(DemandAction.Refuse, NotRehearsed, Channel.Index, entry.Last, 0, 0, input.Now);
        if (input.State is not (RigState.SpinUp or RigState.Hold or RigState.CoastDown))
            return Within(entry, ref memory);
        int place = (int)(input.TimeInStep.Ticks / band.Stretch.Ticks);
        // A step that lasts longer than any rehearsed one is out as well; one stretch is what the scan's own beat may add.
        bool tooLong = place > step.Low.Count;
        int last = Math.Min(place, step.Low.Count - 1);
        return last < 0 ? Within(entry, ref memory) : Held(entry, input, step.Low[last] - _room, step.High[last] + _room, tooLong, ref memory);
    }

    private Demand Held(in ImageEntry entry, in InterlockInput input, double low, double high, bool tooLong, ref InterlockMemory memory)
    {
        bool below = entry.Minimum < low, above = entry.Maximum > high;
        double value = below ? entry.Minimum : entry.Maximum, limit = below ? low : high;
        TimeSpan shown = below ? entry.MinimumAt : entry.MaximumAt;
        if (Lasting.Reached(below || above || tooLong, input.Now, input.Now, allowed, ref memory))
            return Object(below ? Below : above ? Above : TooLong, value, limit, 0, shown);
        double span = Math.Max(high - low, double.Epsilon), nearer = Math.Min(entry.Minimum - low, high - entry.Maximum);
        return Proceed(value, limit, Math.Clamp(2 * nearer / span, 0, 1), shown);
    }

    private Demand Within(in ImageEntry entry, ref InterlockMemory memory)
    {
        memory = default;
        return Proceed(entry.Last, 0, 1, entry.MaximumAt);
    }

    protected override string Describe(in Demand demand) => demand.Reason switch
    {
        NotRehearsed => $"{Channel.Name} has no rehearsal for this run; rehearse it and give the file with --rehearsal",
        Below => $"{Words.Full(Channel, demand.Value, demand.Limit)} is below the {Words.Quantity(demand.Limit, Channel.Declaration.Unit)} that the rehearsal allows here",
        Above => $"{Words.Full(Channel, demand.Value, demand.Limit)} is above the {Words.Quantity(demand.Limit, Channel.Declaration.Unit)} that the rehearsal allows here",
        TooLong => "the step lasts longer than in any rehearsed run",
        _ => $"{Channel.Name} is as rehearsed",
    };

    private static double Largest(RehearsedBand? band) => band is null ? 0 : band.Steps
        .SelectMany(s => s.Low.Concat(s.High))
        .Select(v => v < 0 ? -v : v)
        .DefaultIfEmpty(0)
        .Max();
}
