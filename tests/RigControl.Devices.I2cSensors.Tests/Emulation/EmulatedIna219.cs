namespace RigControl.Devices.I2cSensors.Tests.Emulation;

/// <summary>
/// An INA219 across a shunt. Register map, steps, gains and equations: data sheet TI SBOS448, from memory. Each register
/// holds sixteen bits, highest byte first; a write of one byte sets the pointer.
/// </summary>
internal sealed class EmulatedIna219(double shunt, int address = 0x40) : EmulatedChip(address)
{
    private const int Configuration = 0;
    private const int Shunt = 1;
    private const int Bus = 2;
    private const int Power = 3;
    private const int Current = 4;
    private const int Calibration = 5;
    private const ushort AfterReset = 0x399F;
    private const double ShuntStep = 10e-6;
    private const double BusStep = 0.004;

    private ushort _configuration = AfterReset;
    private byte _pointer;

    /// <summary>True voltage of the bus, V.</summary>
    public double Volts { get; set; } = 12;

    /// <summary>True current through the shunt, A.</summary>
    public double Amperes { get; set; }

    public ushort CalibrationRegister { get; private set; }

    /// <summary>Some other chip at the address: every register reads the same.</summary>
    public ushort? Impostor { get; set; }

    public bool HasOverflowed => Math.Abs(Product) > short.MaxValue;

    // Gain bits 11 and 12: 40, 80, 160 or 320 mV.
    private double FullScale => 0.040 * (1 << ((_configuration >> 11) & 3));

    private int ShuntCounts => (int)Math.Round(Math.Clamp(Amperes * shunt, -FullScale, FullScale) / ShuntStep);

    private int Product => ShuntCounts * CalibrationRegister / 4096;

    /// <summary>A brown-out: every register back to its start.</summary>
    public void BrownOut() => (_configuration, CalibrationRegister) = (AfterReset, 0);

    public ushort ReadRegister(int register) => register switch
    {
        Configuration => _configuration,
        Shunt => (ushort)(short)ShuntCounts,
        Bus => (ushort)(((int)Math.Round(Volts / BusStep) << 3) | 2 | (HasOverflowed ? 1 : 0)),
        Power => (ushort)(Math.Abs(Product) * (int)Math.Round(Volts / BusStep) / 5000),
        Current => (ushort)(short)Product,
        Calibration => CalibrationRegister,
        _ => 0xFFFF,
    };

    public void WriteRegister(int register, ushort value)
    {
        if (register == Configuration)
        {
            _configuration = (value & 0x8000) != 0 ? AfterReset : value;
            CalibrationRegister = (value & 0x8000) != 0 ? (ushort)0 : CalibrationRegister;
        }
        else if (register == Calibration)
        {
            CalibrationRegister = (ushort)(value & 0xFFFE);
        }
    }

    protected override void Take(ReadOnlySpan<byte> bytes)
    {
        _pointer = bytes[0];
        if (bytes.Length == 3)
            WriteRegister(_pointer, (ushort)((bytes[1] << 8) | bytes[2]));
    }

    protected override void Answer(Span<byte> bytes)
    {
        ushort value = Impostor ?? ReadRegister(_pointer);
        (bytes[0], bytes[1]) = ((byte)(value >> 8), (byte)value);
    }
}
