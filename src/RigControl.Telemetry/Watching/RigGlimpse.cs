namespace RigControl.Telemetry.Watching;

/// <summary>What a watcher knows of one rig.</summary>
/// <param name="Rig">Name in the topics.</param>
public sealed record RigGlimpse(string Rig)
{
    /// <summary>starting, online, offline or lost; empty before anything was heard.</summary>
    public string Status { get; init; } = "";

    /// <summary>State of the rig, as the topic says it; empty before it was heard.</summary>
    public string State { get; init; } = "";

    /// <summary>What arming waits for; None otherwise.</summary>
    public string Phase { get; init; } = "";

    public string Run { get; init; } = "";

    /// <summary>Whether nothing real is behind any device.</summary>
    public bool Simulated { get; init; }

    /// <summary>Latched causes, in order.</summary>
    public IReadOnlyList<string> Trips { get; init; } = [];

    /// <summary>Reason of a trip, by its id.</summary>
    public IReadOnlyDictionary<string, string> Reasons { get; init; } = new Dictionary<string, string>();

    /// <summary>Interlock with the least room; empty before it was heard.</summary>
    public string Tightest { get; init; } = "";

    /// <summary>Its room as a share of the limit; null where it was not told.</summary>
    public double? Margin { get; init; }

    /// <summary>Whether it objects.</summary>
    public bool Objects { get; init; }

    /// <summary>Time since the rig itself was last heard; null when only the broker has spoken for it.</summary>
    public TimeSpan? Age { get; init; }

    /// <summary>Longest silence of a rig that is online.</summary>
    public static readonly TimeSpan Silence = TimeSpan.FromSeconds(4);

    /// <summary>Whether what stands here may be out of date.</summary>
    public bool IsStale => Status is not ("online" or "starting") || Age is null || Age > Silence;
}
