using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Devices.I2cSensors.Tests;

/// <summary>Takes what a sensor writes in one call of Read.</summary>
internal sealed class Readings : ISampleWriter
{
    public static readonly TimeSpan Now = TimeSpan.FromSeconds(3);

    private readonly List<(int Channel, TimeSpan At, double Value, Quality Quality)> _samples = [];

    public (double Value, Quality Quality) this[int channel]
    {
        get
        {
            var sample = Assert.Single(_samples, s => s.Channel == channel);
            Assert.Equal(Now, sample.At);
            return (sample.Value, sample.Quality);
        }
    }

    public int Count => _samples.Count;

    public void Write(int channel, TimeSpan at, double value, Quality quality = Quality.Good) => _samples.Add((channel, at, value, quality));

    public static Readings Of(IDevice sensor)
    {
        Readings readings = new();
        sensor.Read(Now, readings);
        Assert.Equal(sensor.Channels.Count, readings.Count);
        return readings;
    }

    public static IDevice Open(IDevicePlugin plugin, object options) => plugin.Open(options, new DeviceContext
    {
        Id = "sensor", Article = null!, ScanPeriod = TimeSpan.FromMilliseconds(5), Seed = 1, Time = TimeProvider.System, Epoch = 0,
    });
}
