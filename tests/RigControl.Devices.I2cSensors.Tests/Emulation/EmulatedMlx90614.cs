namespace RigControl.Devices.I2cSensors.Tests.Emulation;

/// <summary>
/// An MLX90614. Commands, steps, error flag and packet error code: data sheet of Melexis, from memory. A word comes lowest
/// byte first, then the code over everything since the start condition.
/// </summary>
internal sealed class EmulatedMlx90614(int address = 0x5A) : EmulatedChip(address)
{
    private const byte Ambient = 0x06;
    private const byte Object = 0x07;
    private const ushort ErrorFlag = 0x8000;

    private byte _command;
    private int _spoilt;
    private int _spoiltBit;

    /// <summary>Degrees Celsius.</summary>
    public double ObjectTemperature { get; set; } = 20;

    /// <summary>Degrees Celsius.</summary>
    public double AmbientTemperature { get; set; } = 20;

    public bool HasError { get; set; }

    /// <summary>Raw word in place of the object's temperature.</summary>
    public ushort? RawObject { get; set; }

    /// <summary>Noise on the wires turns one bit of each of the next words over; bits 0 to 23, the code's included.</summary>
    public void SpoilWords(int count, int bit) => (_spoilt, _spoiltBit) = (count, bit);

    protected override void Take(ReadOnlySpan<byte> bytes) => _command = bytes[0];

    protected override void Answer(Span<byte> bytes)
    {
        ushort word = Word();
        int address = ConnectionSettings.DeviceAddress;
        byte[] sent = [(byte)word, (byte)(word >> 8), 0];
        sent[2] = LongDivision([(byte)(address << 1), _command, (byte)((address << 1) | 1), sent[0], sent[1]]);
        if (_spoilt-- > 0)
            sent[_spoiltBit / 8] ^= (byte)(1 << (_spoiltBit % 8));
        for (int i = 0; i < bytes.Length; i++)
            bytes[i] = i < sent.Length ? sent[i] : (byte)0xFF;
    }

    // The remainder of the whole message as one long binary number, divided by 1 0000 0111: on purpose another way to
    // reckon than the plugin's.
    private static byte LongDivision(byte[] message)
    {
        int remainder = 0;
        foreach (int bit in message.Append((byte)0).SelectMany(b => Enumerable.Range(0, 8).Select(i => (b >> (7 - i)) & 1)))
        {
            remainder = (remainder << 1) | bit;
            remainder ^= (remainder & 0x100) != 0 ? 0x107 : 0;
        }

        return (byte)remainder;
    }

    private ushort Word() => _command switch
    {
        Ambient => Kelvins(AmbientTemperature),
        Object => RawObject ?? Kelvins(ObjectTemperature),
        _ => 0xFFFF,
    };

    private ushort Kelvins(double celsius) => (ushort)((ushort)Math.Round((celsius + 273.15) / 0.02) | (HasError ? ErrorFlag : 0));
}
