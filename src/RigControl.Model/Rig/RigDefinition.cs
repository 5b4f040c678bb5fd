namespace RigControl.Model.Rig;

/// <summary>A rig file, read and checked.</summary>
public sealed record RigDefinition
{
    public required string Name { get; init; }

    /// <summary>Time between scans, 1 ms to 100 ms.</summary>
    public required TimeSpan ScanPeriod { get; init; }

    public required IReadOnlyList<DeviceDefinition> Devices { get; init; }

    public required IReadOnlyList<InterlockDefinition> Interlocks { get; init; }

    /// <summary>Energy the enclosure is rated for, J; null where the builder has entered none.</summary>
    public double? EnclosureRating { get; init; }

    /// <summary>Where the rating comes from, in the builder's words; empty where there is none.</summary>
    public string EnclosureSource { get; init; } = "";

    /// <summary>What keeps people from the rotor, as its builder declares it; null where the file says nothing of it.</summary>
    public GuardDefinition? Guard { get; init; }

    /// <summary>Speed below which the rotor counts as standing, rpm.</summary>
    public required double StandstillSpeed { get; init; }

    /// <summary>How long the speed must stay below <see cref="StandstillSpeed"/>.</summary>
    public required TimeSpan StandstillTime { get; init; }

    /// <summary>Where runs are published; null where the file says nothing of it.</summary>
    public TelemetryDefinition? Telemetry { get; init; }
}

/// <summary>One device of a rig file.</summary>
/// <param name="Id">Unique in the rig, <c>[a-z0-9-]</c>.</param>
/// <param name="Plugin">Kind of the device, as its plugin names it.</param>
/// <param name="Options">Resolved option values by name: double (in the option's unit), long, bool or string.</param>
/// <param name="Channels">Channels renamed: the device's name to the rig's.</param>
public sealed record DeviceDefinition(
    string Id, string Plugin, IReadOnlyDictionary<string, object> Options, IReadOnlyDictionary<string, string> Channels);

/// <summary>One interlock of a rig file.</summary>
/// <param name="Id">Unique in the rig, <c>[a-z0-9-]</c>; what a procedure names.</param>
/// <param name="Plugin">Kind of the interlock, as its plugin names it.</param>
/// <param name="Options">Resolved option values by name: double (in the option's unit), long, bool or string.</param>
/// <param name="Action">What it asks for when tripped; null takes the plugin's own.</param>
/// <param name="Reset">What lets its latch go; null takes the plugin's own.</param>
/// <param name="Scope">Where its demand counts.</param>
public sealed record InterlockDefinition(
    string Id, string Plugin, IReadOnlyDictionary<string, object> Options, DemandAction? Action, ResetPolicy? Reset, InterlockScope Scope);
