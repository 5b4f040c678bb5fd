using System.Device.I2c;

namespace RigControl.Contracts.Buses;

/// <summary>The buses of the machine. A device plugin asks here and never opens a bus itself, so that a test can put an emulated chip in.</summary>
public interface IBuses
{
    /// <summary>
    /// One chip on an I2C bus. Each transfer runs on the thread that owns the bus; the caller waits for it. Disposing the
    /// chip gives its address back.
    /// </summary>
    /// <param name="bus">Number of the bus, as in <c>/dev/i2c-1</c>.</param>
    /// <param name="address">Seven-bit address, 8 to 119.</param>
    /// <exception cref="IOException">There is no such bus, or the address is taken.</exception>
    I2cDevice OpenI2c(int bus, int address);
}
