namespace RigControl.Telemetry.Links;

/// <summary>A broker, and how it is spoken to.</summary>
public sealed record BrokerAddress
{
    public required string Host { get; init; }

    public required int Port { get; init; }

    /// <summary>Whether the link is encrypted and the broker proves who it is.</summary>
    public bool Tls { get; init; }

    /// <summary>PEM file of the authorities that vouch for the broker; null takes those of the machine.</summary>
    public string? Authority { get; init; }

    /// <summary>SHA-256 of the broker's own certificate, in hexadecimal; null where none is pinned.</summary>
    public string? Pin { get; init; }

    public Credentials Credentials { get; init; } = Credentials.None;

    /// <summary>Whether nobody outside this machine can listen.</summary>
    public bool IsLoopback => Host is "localhost" or "::1" || Host.StartsWith("127.", StringComparison.Ordinal);

    /// <summary>The broker as a person knows it.</summary>
    public override string ToString() => $"{Host}:{Port}";
}
