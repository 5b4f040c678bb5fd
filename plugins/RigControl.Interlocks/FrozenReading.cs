using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>frozen-reading</c>.</summary>
public sealed class FrozenReadingOptions
{
    /// <summary>Channel that is never quite still, because its device declares a noise floor; in any unit. Required.</summary>
    [ChannelName, Meaning("Channel that is never quite still, because its device declares a noise floor.")]
    public string Channel { get; set; } = "";

    /// <summary>Identical readings in a row that count as frozen, 2 to 1000000; useful only below the number at which the channel itself turns Bad. Required.</summary>
    [Count(2, 1_000_000), Meaning("Identical readings in a row that count as frozen.")]
    public int? Samples { get; set; }
}

/// <summary>Makes <c>frozen-reading</c>.</summary>
public sealed class FrozenReadingPlugin : InterlockPlugin<FrozenReadingOptions>
{
    public override string Kind => "frozen-reading";

    public override string Meaning => "A channel with a noise floor does not stand still.";

    public override string Requirement => "SAF-052";

    protected override IInterlock Create(FrozenReadingOptions options, InterlockContext context)
    {
        Channel channel = context.Require(options.Channel);
        return channel.Declaration.FrozenAfter > 0
            ? new FrozenReading(channel, options.Samples!.Value, context.Action)
            : throw new OptionException($"the channel {channel.Name} declares no noise floor, so that it may stand still for ever; {context.Id} cannot watch it");
    }
}

/// <summary>Value and limit of its demands are readings in a row. Scans without a new reading do not count.</summary>
internal sealed class FrozenReading(Channel channel, int samples, DemandAction action) : ChannelInterlock(channel, action)
{
    public const ushort Frozen = 1;

    protected override Demand Judge(in ImageEntry entry, in InterlockInput input, ref InterlockMemory memory)
    {
        if (entry.Count > 0 || memory.Flags == 0)
            Count(entry, ref memory);
        double margin = Margin.Under(memory.Flags, samples);
        return memory.Flags < samples
            ? Proceed(memory.Flags, samples, margin, entry.MaximumAt)
            : Object(Frozen, memory.Flags, samples, margin, entry.MaximumAt);
    }

    protected override string Describe(in Demand demand) => demand.Reason == 0
        ? $"{Words.Name(Channel)} moves as a live sensor does"
        : $"{Words.Name(Channel)} has been the same for {Words.Number(demand.Value)} readings in a row, which no live sensor is; "
            + $"{Words.Number(demand.Limit)} count as frozen";

    // A is the latest reading, Flags how many in a row were equal to it.
    private static void Count(in ImageEntry entry, ref InterlockMemory memory)
    {
        bool still = entry.Minimum == entry.Maximum;
        long fresh = Math.Max(1, entry.Count);
        bool same = memory.Flags > 0 && memory.A == entry.Last;
        memory.Flags = !still ? 1 : same ? memory.Flags + fresh : fresh;
        memory.A = entry.Last;
    }
}
