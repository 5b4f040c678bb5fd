namespace RigControl.Runtime.Scanning;

/// <summary>The session's clock: monotonic, zero at the epoch, the same for scan, samples and events.</summary>
/// <param name="time">Where timestamps come from.</param>
/// <param name="epoch">Timestamp at which the clock shows zero.</param>
public sealed class SessionClock(TimeProvider time, long epoch)
{
    public TimeSpan Now => time.GetElapsedTime(epoch);
}
