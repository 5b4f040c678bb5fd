namespace RigControl.Telemetry.Tests.Support;

/// <summary>A clock that goes when it is told to. It makes no timers.</summary>
internal sealed class ManualTime : TimeProvider
{
    private TimeSpan _since;

    public static DateTimeOffset Begin { get; } = new(2026, 3, 1, 10, 0, 0, TimeSpan.Zero);

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override DateTimeOffset GetUtcNow() => Begin + _since;

    public override long GetTimestamp() => _since.Ticks;

    public void Pass(TimeSpan time) => _since += time;
}
