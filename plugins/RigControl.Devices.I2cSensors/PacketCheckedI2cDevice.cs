using System.Device.I2c;

namespace RigControl.Devices.I2cSensors;

/// <summary>
/// A chip that ends every word it sends with an SMBus packet error code. The binding leaves that code unread; here it is
/// read and checked, since a motor and its controller next to the wires do turn bits over.
/// </summary>
internal sealed class PacketCheckedI2cDevice(I2cDevice chip) : I2cDevice
{
    // A packet of the bus is at most 32 bytes long; more is a fault of the caller.
    private const int MostRead = 32;

    public override I2cConnectionSettings ConnectionSettings => chip.ConnectionSettings;

    public override void Read(Span<byte> buffer) => chip.Read(buffer);

    public override void Write(ReadOnlySpan<byte> buffer) => chip.Write(buffer);

    /// <exception cref="IOException">The code does not fit what was written and read.</exception>
    public override void WriteRead(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(readBuffer.Length, MostRead);
        Span<byte> read = stackalloc byte[readBuffer.Length + 1];
        chip.WriteRead(writeBuffer, read);
        int address = ConnectionSettings.DeviceAddress << 1;
        byte code = PacketErrorCode.Add(0, [(byte)address]);
        code = PacketErrorCode.Add(code, writeBuffer);
        code = PacketErrorCode.Add(code, [(byte)(address | 1)]);
        if (PacketErrorCode.Add(code, read[..^1]) != read[^1])
            throw new IOException("A word came with a wrong check code; the wires pick up noise.");
        read[..^1].CopyTo(readBuffer);
    }

    protected override void Dispose(bool disposing) => chip.Dispose();
}

/// <summary>The check code of SMBus: CRC-8 with the polynomial x⁸ + x² + x + 1, starting from 0.</summary>
internal static class PacketErrorCode
{
    private const byte Polynomial = 0x07;

    /// <summary>The code of everything before, continued with some more bytes.</summary>
    public static byte Add(byte code, ReadOnlySpan<byte> bytes)
    {
        foreach (byte next in bytes)
        {
            code ^= next;
            for (int bit = 0; bit < 8; bit++)
                code = (byte)((code & 0x80) != 0 ? (code << 1) ^ Polynomial : code << 1);
        }

        return code;
    }
}
