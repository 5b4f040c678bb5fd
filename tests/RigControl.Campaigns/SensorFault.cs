using RigControl.Contracts;
using RigControl.Model.Signals;

namespace RigControl.Campaigns;

/// <summary>Stands between a device and the host and spoils one channel while its fault is on.</summary>
internal sealed class SensorFault(PlannedFault fault, ChannelDeclaration declaration) : ISampleWriter
{
    private readonly double _span = declaration.Maximum - declaration.Minimum;
    private ISampleWriter _to = null!;
    private double _now;
    private double _last;
    private int _count;

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

        _count++;
        if (_count == 1)
            _last = value;
        (TimeSpan when, double? what) = Spoil(at, value);
        if (what is { } spoilt)
            _to.Write(channel, when, spoilt, quality);
    }

    private (TimeSpan At, double? Value) Spoil(TimeSpan at, double value) => fault.Kind switch
    {
        FaultKind.SensorStuck => (at, _last),
        FaultKind.SensorSilent => (at, null),
        FaultKind.SensorNotANumber => (at, double.NaN),
        FaultKind.SensorDrifting => (at, value + (_now - fault.From) * fault.Size * _span / 10),
        FaultKind.SensorSpiking => (at, _count % 7 == 0 ? declaration.Maximum : value),
        FaultKind.SensorLate => (at - TimeSpan.FromSeconds(fault.Size), value),
        FaultKind.SensorOutOfOrder => (at - TimeSpan.FromMilliseconds(_count % 2 * 30), value),
        _ => (at, declaration.Maximum - (value - declaration.Minimum)),
    };
}
