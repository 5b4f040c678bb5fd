using System.Device.I2c;
using RigControl.Contracts;
using RigControl.Contracts.Buses;

namespace RigControl.Devices.I2cSensors;

/// <summary>Which chip is where: what every sentence about it begins with.</summary>
/// <param name="Chip">Type, such as INA219.</param>
/// <param name="Bus">Number of the I2C bus.</param>
/// <param name="Address">Seven-bit address.</param>
internal sealed record ChipSite(string Chip, int Bus, int Address)
{
    public override string ToString() => $"the {Chip} at address {Address} (0x{Address:x2}) on I2C bus {Bus}";

    /// <summary>Opens the chip's place on the bus. Throws <see cref="DeviceException"/> when there is no such bus or it is taken.</summary>
    public I2cDevice Open(IBuses buses)
    {
        try
        {
            return buses.OpenI2c(Bus, Address);
        }
        catch (Exception cause) when (IsBusFailure(cause))
        {
            throw new DeviceException($"cannot reach {this}: {cause.Message}; check that I2C is switched on, the number of the bus and who may use it", cause);
        }
    }

    /// <summary>Makes a sensor on an open place, trying again like a reading does; disposes the place and says why when that fails.</summary>
    public T Start<T>(I2cDevice place, int retries, Func<T> start)
    {
        for (int attempt = 0; ; attempt++)
        {
            try
            {
                return start();
            }
            catch (IOException) when (attempt < retries)
            {
            }
            catch (Exception cause)
            {
                Bury(place);
                if (IsBusFailure(cause))
                    throw new DeviceException($"{this} does not answer: {cause.Message} Check its wiring, supply and address", cause);
                throw;
            }
        }
    }

    /// <summary>Lets something go that may be out of order. There is nobody left to tell.</summary>
    public static void Bury(IDisposable dead)
    {
        try
        {
            dead.Dispose();
        }
        catch (Exception cause) when (IsBusFailure(cause))
        {
        }
    }

    /// <summary>No acknowledgement, a lost bus or a stuck one; anything else is a fault of the program.</summary>
    public static bool IsBusFailure(Exception cause) => cause is IOException or TimeoutException;
}
