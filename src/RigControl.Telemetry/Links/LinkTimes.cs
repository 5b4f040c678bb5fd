namespace RigControl.Telemetry.Links;

/// <summary>How patient a link is.</summary>
public sealed record LinkTimes
{
    /// <summary>Longest wait for the broker's answer to a connect.</summary>
    public TimeSpan Connect { get; init; } = TimeSpan.FromSeconds(5);

    /// <summary>Time between two heartbeats.</summary>
    public TimeSpan Heartbeat { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>Longest wait for an acknowledgement; a link that keeps none is taken for dead.</summary>
    public TimeSpan Acknowledgement { get; init; } = TimeSpan.FromSeconds(3);

    /// <summary>Wait before the first new try after a failure; it doubles from there.</summary>
    public TimeSpan FirstRetry { get; init; } = TimeSpan.FromSeconds(0.5);

    /// <summary>Longest wait before a new try.</summary>
    public TimeSpan LongestRetry { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>How long the end of the process waits for what is still on its way.</summary>
    public TimeSpan Farewell { get; init; } = TimeSpan.FromSeconds(2);
}
