namespace RigControl.Devices.RigBoard.Tests.Double;

/// <summary>A clock that only a test moves, in steps of 100 ns.</summary>
public sealed class ManualTime : TimeProvider
{
    private long _ticks;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public TimeSpan Now => TimeSpan.FromTicks(GetTimestamp());

    public override long GetTimestamp() => Interlocked.Read(ref _ticks);

    public void Pass(TimeSpan time) => Interlocked.Add(ref _ticks, time.Ticks);
}
