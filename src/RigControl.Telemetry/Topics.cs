namespace RigControl.Telemetry;

/// <summary>The topics of one rig. The number is the major version of the payloads' schemas; what is only added keeps it.</summary>
/// <param name="site">Site, <c>[a-z0-9-]</c>.</param>
/// <param name="rig">Rig, <c>[a-z0-9-]</c>.</param>
public sealed class Topics(string site, string rig)
{
    /// <summary>Where every topic of every rig begins.</summary>
    public const string Base = "rigcontrol/1";

    public string Site { get; } = site;

    public string Rig { get; } = rig;

    public string Root { get; } = $"{Base}/{site}/{rig}";

    public string Status => $"{Root}/status";

    public string Birth => $"{Root}/birth";

    public string State => $"{Root}/state";

    public string Data => $"{Root}/data";

    public string Event => $"{Root}/event";

    public string Figure => $"{Root}/figure";

    public string Heartbeat => $"{Root}/heartbeat";

    /// <summary>Where commands are answered; below it stand the answers of clients that ask for a topic of their own.</summary>
    public string Receipt => $"{Root}/receipt";

    public string Stop => $"{Root}/command/stop";

    public string Acknowledge => $"{Root}/command/acknowledge";

    /// <summary>Every command there is, as a filter.</summary>
    public string Commands => $"{Root}/command/+";

    public string Trip(string id) => $"{Root}/trip/{id}";
}
