using RigControl.Telemetry.Links;

namespace RigControl.Telemetry.Publishing;

/// <summary>Where a rig is published.</summary>
public sealed record TelemetrySettings
{
    /// <summary>Site in every topic, <c>[a-z0-9-]</c>.</summary>
    public required string Site { get; init; }

    /// <summary>Rig in every topic, <c>[a-z0-9-]</c>.</summary>
    public required string Rig { get; init; }

    /// <summary>The broker; null for the embedded one.</summary>
    public BrokerAddress? Broker { get; init; }

    /// <summary>Port of the embedded broker, on loopback.</summary>
    public int EmbeddedPort { get; init; } = 1883;

    /// <summary>File of the embedded broker's users; null lets every client on this machine watch and stop.</summary>
    public string? Users { get; init; }

    /// <summary>Folder in which telemetry remembers session numbers and what is still to be sent.</summary>
    public required string StateRoot { get; init; }

    public LinkTimes Times { get; init; } = new();

    /// <summary>Most blocks of data that wait for the link; at ten a second, about three seconds.</summary>
    public int MostBlocks { get; init; } = 32;
}
