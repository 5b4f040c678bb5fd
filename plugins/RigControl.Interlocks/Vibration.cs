using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>vibration</c>.</summary>
public sealed class VibrationOptions
{
    /// <summary>Channel of the vibration, in m/s2. Default vibration.</summary>
    [ChannelName, Meaning("Channel of the vibration.")]
    public string Channel { get; set; } = ChannelNames.Vibration;

    /// <summary>Strongest vibration allowed to last, in either direction, in m/s2, 0.01 to 100000. Required.</summary>
    [Quantity("m/s2", 0.01, 100_000), Meaning("Strongest vibration allowed to last, in either direction.")]
    public double Limit { get; set; } = double.NaN;

    /// <summary>Time for which the limit may be passed without a break, in s, 0 to 60, for instance through a resonance; 0 trips at once. Default 0 s.</summary>
    [Quantity("s", 0, 60), Meaning("Time for which the limit may be passed without a break, for instance through a resonance; 0 trips at once.")]
    public double For { get; set; }
}

/// <summary>Makes <c>vibration</c>.</summary>
public sealed class VibrationPlugin : InterlockPlugin<VibrationOptions>
{
    public override string Kind => "vibration";

    public override string Meaning => "The bench shakes no more than allowed.";

    public override string Requirement => "SAF-057";

    protected override IInterlock Create(VibrationOptions options, InterlockContext context) =>
        new Vibration(context.Require(options.Channel, "m/s2"), options.Limit, TimeSpan.FromSeconds(options.For), context.Action);
}

internal sealed class Vibration(Channel channel, double limit, TimeSpan allowedFor, DemandAction action)
    : CeilingInterlock(channel, limit, allowedFor, action)
{
    protected override Extreme Worst(in ImageEntry entry)
    {
        Extreme worst = Extreme.Of(entry);
        return worst with { Value = worst.Size };
    }
}
