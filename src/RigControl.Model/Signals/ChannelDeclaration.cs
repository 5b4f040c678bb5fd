namespace RigControl.Model.Signals;

/// <summary>What a device promises about one channel it supplies.</summary>
public sealed record ChannelDeclaration
{
    /// <summary>Dotted lower-case name, such as <c>rotor.speed</c>. A rig file may map it to another name.</summary>
    public required string Name { get; init; }

    /// <summary>Unit symbol, one of those listed in <c>docs/procedure-files.md</c>.</summary>
    public required string Unit { get; init; }

    /// <summary>Lowest value that can be true, in <see cref="Unit"/>. A reading below it is Bad.</summary>
    public required double Minimum { get; init; }

    /// <summary>Highest value that can be true, in <see cref="Unit"/>. A reading above it is Bad.</summary>
    public required double Maximum { get; init; }

    /// <summary>Step to which readings are rounded, in <see cref="Unit"/>; 0 keeps the value as it came.</summary>
    public double Resolution { get; init; }

    /// <summary>Time between readings under normal conditions.</summary>
    public required TimeSpan Period { get; init; }

    /// <summary>Age above which the reading counts as Bad.</summary>
    public required TimeSpan MaximumAge { get; init; }

    /// <summary>
    /// Number of identical readings in a row after which a live sensor must be frozen; 0 where the channel has no
    /// noise floor, so that standing still is normal.
    /// </summary>
    public int FrozenAfter { get; init; }
}
