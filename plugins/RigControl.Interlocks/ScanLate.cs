using RigControl.Contracts;
using RigControl.Interlocks.Shared;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks;

/// <summary>Options of <c>scan-late</c>.</summary>
public sealed class ScanLateOptions
{
    /// <summary>Channel of the scan's lateness, in ms. Default scan.lateness, which the host writes.</summary>
    [ChannelName, Meaning("Channel of the scan's lateness.")]
    public string Channel { get; set; } = ChannelNames.ScanLateness;

    /// <summary>Longest lateness of a scan that may last, in s, 0.0001 to 1; the kernel itself stops after three late scans in a row. Required.</summary>
    [Quantity("s", 0.0001, 1), Meaning("Longest lateness of a scan that may last; the kernel itself stops after three late scans in a row.")]
    public double Limit { get; set; } = double.NaN;

    /// <summary>Time for which scans may be later without a break, in s, 0 to 60; 0 trips at once. Default 0 s.</summary>
    [Quantity("s", 0, 60), Meaning("Time for which scans may be later without a break; 0 trips at once.")]
    public double For { get; set; }
}

/// <summary>Makes <c>scan-late</c>.</summary>
public sealed class ScanLatePlugin : InterlockPlugin<ScanLateOptions>
{
    public override string Kind => "scan-late";

    public override string Meaning => "The scans come when they are due.";

    public override string Requirement => "SAF-064";

    protected override IInterlock Create(ScanLateOptions options, InterlockContext context) =>
        new ScanLate(context.Require(options.Channel, "ms"), options.Limit * 1000, TimeSpan.FromSeconds(options.For), context.Action);
}

internal sealed class ScanLate(Channel channel, double limit, TimeSpan allowedFor, DemandAction action)
    : CeilingInterlock(channel, limit, allowedFor, action)
{
    protected override Extreme Worst(in ImageEntry entry) => new(entry.Maximum, entry.MaximumAt);
}
