using RigControl.Contracts;
using RigControl.Model.Signals;

namespace RigControl.Campaigns;

/// <summary>Stands between a device and the host and spoils one channel while its fault is on.</summary>
internal sealed class SensorFault(PlannedFault fault, ChannelDeclaration declaration) : ISampleWriter
{
    private readonly double _span = declaration.Maximum - declaration.Minimum;
    private readonly Queue<(TimeSpan At, double Value)> _delayed = new();
    private ISampleWriter _to = null!;
    private double _now;
    private double _last;
    private int _count;

    public static bool Is(FaultKind kind) => kind is >= FaultKind.SensorStuck and <= FaultKind.TachometerZero;

    /// <summary>The channel that a kind of fault is always about; null where it may be any.</summary>
    public static int? ChannelOf(FaultKind kind) => kind switch
    {
        FaultKind.BoltLies => BenchChannels.Bolt,
        FaultKind.TachometerFrozen or FaultKind.TachometerZero => BenchChannels.Speed,
        _ => null,
    };

    public ISampleWriter Between(double now, ISampleWriter to)
    {
        if (!fault.IsOn(now))
            return to;
        (_now, _to) = (now, to);
        return this;
    }

    public void Write(int channel, TimeSpan at, double value, Quality quality = Quality.Good)
    {
        if (channel != fault.Channel)
        {
            _to.Write(channel, at, value, quality);
            return;
        }

        if (_count++ == 0)
            _last = value;
        (TimeSpan when, double? what) = fault.Kind == FaultKind.SensorLate ? Delay(at, value) : Spoil(at, value);
        if (what is { } spoilt)
            _to.Write(channel, when, spoilt, quality);
    }

    private (TimeSpan At, double? Value) Spoil(TimeSpan at, double value) => fault.Kind switch
    {
        FaultKind.SensorStuck or FaultKind.TachometerFrozen => (at, _last),
        FaultKind.TachometerZero => (at, 0),
        FaultKind.BoltLies => (at, fault.Size < 0.5 ? 1 : 0),
        FaultKind.SensorSilent => (at, null),
        FaultKind.SensorNotANumber => (at, double.NaN),
        FaultKind.SensorDrifting => (at, value + (_now - fault.From) * (fault.Size - 0.5) * _span / 5),
        FaultKind.SensorSpiking => (at, _count % 7 == 0 ? declaration.Maximum : value),
        FaultKind.SensorOutOfOrder => (at - TimeSpan.FromMilliseconds(_count % 2 * 30), value),
        FaultKind.SensorScaled => (at, value * (0.5 + fault.Size)),
        _ => (at, declaration.Maximum - (value - declaration.Minimum)),
    };

    // Readings come up to 0.3 s after they were taken, with the stamp of when they were.
    private (TimeSpan At, double? Value) Delay(TimeSpan at, double value)
    {
        _delayed.Enqueue((at, value));
        if (at - _delayed.Peek().At < TimeSpan.FromSeconds(fault.Size * 0.3))
            return (at, null);
        (TimeSpan taken, double then) = _delayed.Dequeue();
        return (taken, then);
    }
}
