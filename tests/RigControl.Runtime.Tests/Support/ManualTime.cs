namespace RigControl.Runtime.Tests.Support;

/// <summary>A clock that stands until the test moves it.</summary>
internal sealed class ManualTime : TimeProvider
{
    private long _ticks = 1;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override long GetTimestamp() => Volatile.Read(ref _ticks);

    public void Pass(TimeSpan time) => Interlocked.Add(ref _ticks, time.Ticks);
}
