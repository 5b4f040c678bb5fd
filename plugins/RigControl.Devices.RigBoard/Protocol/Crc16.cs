namespace RigControl.Devices.RigBoard.Protocol;

/// <summary>CRC-16 of the board's lines: polynomial 0x1021, initial value 0xFFFF, not reflected, no final inversion.</summary>
internal static class Crc16
{
    private static readonly ushort[] Table = [.. Enumerable.Range(0, 256).Select(OfByte)];

    public static ushort Of(ReadOnlySpan<byte> bytes)
    {
        ushort crc = 0xFFFF;
        foreach (byte b in bytes)
            crc = (ushort)(crc << 8 ^ Table[crc >> 8 ^ b]);
        return crc;
    }

    private static ushort OfByte(int value)
    {
        int crc = value << 8;
        for (int bit = 0; bit < 8; bit++)
            crc = (crc & 0x8000) != 0 ? crc << 1 ^ 0x1021 : crc << 1;
        return (ushort)crc;
    }
}
