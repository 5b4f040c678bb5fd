using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Devices.I2cSensors;

/// <summary>
/// A sensor on an I2C bus. A missed acknowledgement is everyday there: it is tried again, and a value that needed a second
/// try is Uncertain. A value that cannot be had is written as Bad, so that the rig stops at once; a sensor that stays
/// silent takes itself out of service.
/// </summary>
internal abstract class I2cSensor(ChipSite site, int retries, IDisposable chip) : IDevice
{
    /// <summary>Reads in a row without a single value, after which the sensor gives up: at its pace a tenth of a second and more, which no loose wire bridges.</summary>
    public const int MostSilentReads = 10;

    private int _silentReads;
    private long _failedTries;

    public abstract IReadOnlyList<ChannelDeclaration> Channels { get; }

    public abstract TimeSpan ReadPeriod { get; }

    public DeviceTraits Traits => DeviceTraits.None;

    public virtual IReadOnlyDictionary<string, string> Identity => new Dictionary<string, string>
    {
        ["chip"] = site.Chip, ["bus"] = $"i2c-{site.Bus}", ["address"] = $"0x{site.Address:x2}",
    };

    /// <summary>Tries that failed since the sensor was opened, those that a retry made good included.</summary>
    public long FailedTries => _failedTries;

    public void Read(TimeSpan now, ISampleWriter writer)
    {
        Exception? failure = null;
        int values = 0;
        for (int channel = 0; channel < Channels.Count; channel++)
        {
            // A stuck bus is not asked again in the same call: every question would wait out its deadline.
            (double value, Quality quality) = failure is TimeoutException ? Nothing : Try(channel, ref failure);
            writer.Write(channel, now, value, quality);
            values += quality == Quality.Bad ? 0 : 1;
        }

        _silentReads = values > 0 || failure is null ? 0 : _silentReads + 1;
        if (_silentReads >= MostSilentReads)
        {
            throw new DeviceException($"{site} has been silent for {_silentReads} reads: {failure!.Message} "
                + $"Check its wiring and supply; {_failedTries} tries failed since it was opened", failure);
        }
    }

    /// <summary>A sensor has no outputs.</summary>
    public void Apply(TimeSpan now, in OutputImage outputs)
    {
    }

    public void Dispose() => ChipSite.Bury(chip);

    /// <summary>One value from the chip, in the channel's unit. Throws when the bus fails.</summary>
    protected abstract double Measure(int channel);

    /// <summary>Whether the chip itself says that a value is none.</summary>
    protected abstract bool IsFaulty(int channel, double value);

    private static (double Value, Quality Quality) Nothing => (double.NaN, Quality.Bad);

    private (double Value, Quality Quality) Try(int channel, ref Exception? failure)
    {
        for (int attempt = 0; attempt <= retries; attempt++)
        {
            try
            {
                double value = Measure(channel);
                return (value, IsFaulty(channel, value) ? Quality.Bad : attempt > 0 ? Quality.Uncertain : Quality.Good);
            }
            catch (Exception cause) when (ChipSite.IsBusFailure(cause))
            {
                _failedTries++;
                failure = cause;
                if (cause is TimeoutException)
                    break;
            }
        }

        return Nothing;
    }
}
