namespace RigControl.Devices.RigBoard.Protocol;

/// <summary>A <c>now</c> line: everything the board tells two hundred times a second. The zero value has nothing proven.</summary>
internal struct BoardStatus
{
    // Where the board's clock of 31 bits wraps.
    private const uint LongestTime = 0x7FFF_FFFF;
    // Ten seconds in us, where the board ends its count; a slower rotor stands.
    private const uint LongestPeriod = 9_999_999;

    /// <summary>Line number; what a demand echoes.</summary>
    public ushort Sequence;

    /// <summary>Board clock, us, wraps to 0 at 2^31.</summary>
    public uint Time;

    /// <summary>The last four digits of the boot nonce.</summary>
    public ushort Nonce;

    /// <summary>Digest of the active configuration; 0 none.</summary>
    public ushort Digest;

    public BoardMode Mode;
    public BoardCauses Latched;
    public BoardBits Bits;

    /// <summary>Closings of the arm key since the board's start, modulo 256.</summary>
    public byte Closings;

    /// <summary>Pulse being put out, us; 0 ceased.</summary>
    public ushort Demanded;

    /// <summary>Width of the last pulse read back from the pin, us; 0 none.</summary>
    public ushort Measured;

    /// <summary>Tachometer pulses since the board's start, modulo 65536.</summary>
    public ushort Pulses;

    /// <summary>Time between the last two tachometer pulses, us; 0 fewer than two.</summary>
    public uint Period;

    /// <summary>Shortest such period since the line before, us; 0 none.</summary>
    public uint Shortest;

    /// <summary>Time since the last tachometer pulse, us, at most 9999999.</summary>
    public uint Age;

    public Reading Voltage;
    public Reading Current;
    public Reading Thermistor1;
    public Reading Thermistor2;

    /// <summary>Bit 0 thermistor 1 open, 1 shorted, 2 thermistor 2 open, 3 shorted.</summary>
    public byte Wires;

    /// <summary>Width of the receiver's last pulse, us; 0 none.</summary>
    public ushort Receiver;

    /// <summary>Number of the last host line accepted.</summary>
    public ushort Accepted;

    /// <summary>Bad host lines, refused host lines, receive overruns, own lines dropped: a byte each, high to low.</summary>
    public uint Errors;

    /// <summary>Pulse being put out to the second output, us; 0 none.</summary>
    public ushort Second;

    /// <summary>Whether an input or output is set.</summary>
    public readonly bool Has(BoardBits bit) => (Bits & bit) != 0;

    /// <summary>Reads the fields after the word <c>now</c>. False when anything is not as described.</summary>
    public static bool TryRead(LineFields fields, out BoardStatus status)
    {
        status = default;
        status.TakeState(ref fields);
        status.TakeOutput(ref fields);
        status.TakeTachometer(ref fields);
        status.Voltage = Reading.Take(ref fields);
        status.Current = Reading.Take(ref fields);
        status.Thermistor1 = Reading.Take(ref fields);
        status.Thermistor2 = Reading.Take(ref fields);
        status.Wires = (byte)fields.Hex(1);
        status.Receiver = (ushort)fields.Decimal(ushort.MaxValue);
        status.Accepted = (ushort)fields.Hex(4);
        status.Errors = fields.Hex(8);
        status.Second = (ushort)fields.Decimal(ushort.MaxValue);
        return fields.Complete;
    }

    private void TakeState(ref LineFields fields)
    {
        Sequence = (ushort)fields.Hex(4);
        Time = fields.Decimal(LongestTime);
        Nonce = (ushort)fields.Hex(4);
        Digest = (ushort)fields.Hex(4);
        Mode = TakeMode(ref fields);
        Latched = (BoardCauses)fields.Hex(4);
        Bits = (BoardBits)fields.Hex(4);
        Closings = (byte)fields.Hex(2);
    }

    private void TakeOutput(ref LineFields fields)
    {
        Demanded = (ushort)fields.Decimal(ushort.MaxValue);
        Measured = (ushort)fields.Decimal(ushort.MaxValue);
    }

    private void TakeTachometer(ref LineFields fields)
    {
        Pulses = (ushort)fields.Decimal(ushort.MaxValue);
        Period = fields.Decimal(LongestPeriod);
        Shortest = fields.Decimal(LongestPeriod);
        Age = fields.Decimal(LongestPeriod);
    }

    // A word that this version does not know spoils the line: the field after it cannot be trusted either.
    private static BoardMode TakeMode(ref LineFields fields)
    {
        ReadOnlySpan<byte> word = fields.Text();
        BoardMode mode = word.SequenceEqual("trip"u8) ? BoardMode.Trip
            : word.SequenceEqual("idle"u8) ? BoardMode.Idle
            : word.SequenceEqual("live"u8) ? BoardMode.Live
            : word.SequenceEqual("spin"u8) ? BoardMode.Spin
            : BoardMode.Bare;
        if (mode == BoardMode.Bare && !word.SequenceEqual("bare"u8))
            fields.Spoil();
        return mode;
    }
}
