using RigControl.Model.Signals;

namespace RigControl.Model.Records;

/// <summary>Everything known of a run before its first scan: enough to say what it was and to run it again.</summary>
public sealed record RunHeader
{
    /// <summary>Short random name, unique in the logbook, <c>[a-z0-9]</c>.</summary>
    public required string Run { get; init; }

    public required DateTimeOffset StartedAt { get; init; }

    /// <summary>Whether every device of the rig was simulated.</summary>
    public required bool Simulated { get; init; }

    public required ulong Seed { get; init; }

    public required string Operator { get; init; }

    /// <summary>Version of this program.</summary>
    public required string Software { get; init; }

    public required DocumentCopy Procedure { get; init; }

    public required DocumentCopy Rig { get; init; }

    public required DocumentCopy Article { get; init; }

    /// <summary>The rehearsal that the run was held against; null without one.</summary>
    public DocumentCopy? Rehearsal { get; init; }

    /// <summary>Every plugin assembly loaded for the rig.</summary>
    public required IReadOnlyList<PluginIdentity> Plugins { get; init; }

    /// <summary>In the order of the watermarks; the host itself is the last.</summary>
    public required IReadOnlyList<DeviceIdentity> Devices { get; init; }

    /// <summary>In the order of the demands.</summary>
    public required IReadOnlyList<InterlockIdentity> Interlocks { get; init; }

    /// <summary>What the run's times were taken by, in a few words; empty where nobody noted it.</summary>
    public string Clock
    {
        get => field ?? "";
        init;
    }

    /// <summary>Calibrations that the figures were corrected by; empty where there were none, and in runs of earlier versions.</summary>
    public IReadOnlyList<CalibrationIdentity> Calibrations
    {
        get => field ?? [];
        init;
    }

    /// <summary>In the order of the input image.</summary>
    public required IReadOnlyList<Channel> Channels { get; init; }
}

/// <summary>A document as it was when the run began.</summary>
/// <param name="Name">What the document calls itself.</param>
/// <param name="Text">The whole file.</param>
public sealed record DocumentCopy(string Name, string Text);

/// <summary>A plugin assembly.</summary>
/// <param name="Digest">SHA-256 of the plugin's folder, in hexadecimal.</param>
public sealed record PluginIdentity(string Assembly, string Version, string Digest);

/// <summary>A device as it was opened.</summary>
/// <param name="Facts">Firmware version, serial number, boot nonce: whatever the device knows of itself.</param>
public sealed record DeviceIdentity(string Id, string Plugin, bool Simulated, IReadOnlyDictionary<string, string> Facts)
{
    /// <summary>Every option with the value in force, as text; empty in runs of earlier versions.</summary>
    public IReadOnlyDictionary<string, string> Options
    {
        get => field ?? new Dictionary<string, string>();
        init;
    }
}

/// <summary>A channel's calibration.</summary>
/// <param name="At">When its points were taken.</param>
/// <param name="ValidUntil">From then on it counts as expired; null for no end.</param>
/// <param name="Correction">The true value as a formula of the reading, every digit of it.</param>
/// <param name="Reference">What the readings were held against, in the builder's words.</param>
public sealed record CalibrationIdentity(string Channel, DateTimeOffset At, DateTimeOffset? ValidUntil, string Correction, string Reference);

/// <summary>An interlock with its resolved options, as text.</summary>
public sealed record InterlockIdentity(string Id, string Plugin, IReadOnlyDictionary<string, string> Options);
