namespace RigControl.Model.Rig;

/// <summary>The telemetry section of a rig file: where the run is published. It never holds a secret.</summary>
public sealed record TelemetryDefinition
{
    /// <summary>Port of MQTT without TLS.</summary>
    public const int UsualPort = 1883;

    /// <summary>Port of MQTT over TLS.</summary>
    public const int UsualSecurePort = 8883;

    /// <summary>Site in every topic, <c>[a-z0-9-]</c>.</summary>
    public string Site { get; init; } = "local";

    /// <summary>Host name of the broker; null for the one that this program brings along, on loopback only.</summary>
    public string? Broker { get; init; }

    /// <summary>TCP port of the broker, or the one at which the embedded broker listens.</summary>
    public int Port { get; init; } = UsualPort;

    /// <summary>Whether the link to the broker is encrypted and the broker proves who it is.</summary>
    public bool Tls { get; init; }

    /// <summary>PEM file of the authorities that vouch for the broker; null takes those of the machine.</summary>
    public string? Authority { get; init; }

    /// <summary>SHA-256 of the broker's own certificate, in hexadecimal; null where no single certificate is pinned.</summary>
    public string? Pin { get; init; }

    /// <summary>File that holds user, password or the files of a client certificate; null takes them from the environment.</summary>
    public string? Secrets { get; init; }

    /// <summary>File of the embedded broker's users with their rights; null lets every client on this machine watch and stop.</summary>
    public string? Users { get; init; }
}
