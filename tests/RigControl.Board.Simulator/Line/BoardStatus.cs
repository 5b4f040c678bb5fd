namespace RigControl.Board.Simulator.Line;

/// <summary>Bits of the field <c>bits</c> of a <c>now</c> line.</summary>
[Flags]
public enum StatusBits : ushort
{
    /// <summary>No contact closed, nothing on.</summary>
    None = 0,

    /// <summary>Lid contact A closed.</summary>
    LidA = 1 << 0,

    /// <summary>Lid contact B closed.</summary>
    LidB = 1 << 1,

    /// <summary>Bolt home.</summary>
    Bolt = 1 << 2,

    /// <summary>Stop circuit closed.</summary>
    StopClear = 1 << 3,

    /// <summary>Arm key closed.</summary>
    Key = 1 << 4,

    /// <summary>Contactor not proven open.</summary>
    Contactor = 1 << 5,

    /// <summary>Receiver pulses present.</summary>
    Receiver = 1 << 6,

    /// <summary>Key closed afresh since the last reset.</summary>
    FreshKey = 1 << 7,

    /// <summary>Square wave running.</summary>
    Power = 1 << 8,

    /// <summary>Lock released.</summary>
    Released = 1 << 9,

    /// <summary>Marker on.</summary>
    Marker = 1 << 10,

    /// <summary>Servo pulses running.</summary>
    Pulses = 1 << 11,

    /// <summary>Receiver's pulse passed on.</summary>
    Gate = 1 << 12,
}

/// <summary>Bits of latched causes.</summary>
[Flags]
public enum Causes : ushort
{
    /// <summary>Nothing latched.</summary>
    None = 0,

    /// <summary>Board start or new configuration.</summary>
    Start = 1 << 0,

    /// <summary>Self-test failed.</summary>
    SelfTest = 1 << 1,

    /// <summary>A lid contact opened.</summary>
    Lid = 1 << 2,

    /// <summary>The lid contacts disagree.</summary>
    LidPair = 1 << 3,

    /// <summary>Stop circuit open.</summary>
    Stop = 1 << 4,

    /// <summary>Host silent.</summary>
    Silent = 1 << 5,

    /// <summary>Over-speed.</summary>
    Speed = 1 << 6,

    /// <summary>Over-current.</summary>
    Current = 1 << 7,

    /// <summary>Tachometer lost while driven.</summary>
    Tacho = 1 << 8,

    /// <summary>Contactor feedback does not follow.</summary>
    Contactor = 1 << 9,

    /// <summary>Converter stands still.</summary>
    Sampler = 1 << 10,

    /// <summary>No receiver pulse while the gate was open.</summary>
    Receiver = 1 << 11,
}

/// <summary>A <c>now</c> line, as far as reactions need it.</summary>
/// <param name="Line">The line itself; its number is what the host echoes.</param>
public sealed record BoardStatus(BoardLine Line)
{
    private const int FieldCount = 30;

    /// <summary>Reads a <c>now</c> line; null when it is another line.</summary>
    public static BoardStatus? Read(BoardLine line) =>
        line.Word == "now" && line.Fields.Length == FieldCount ? new BoardStatus(line) : null;

    /// <summary>Board clock, µs.</summary>
    public uint Time => Line.Number(0);

    /// <summary>Digest of the active configuration, 0 for none.</summary>
    public ushort Digest => (ushort)Line.HexField(2);

    /// <summary>bare, trip, idle, live or spin.</summary>
    public string Mode => Line.Fields[3];

    /// <summary>Latched causes.</summary>
    public Causes Latched => (Causes)Line.HexField(4);

    /// <summary>Inputs and outputs.</summary>
    public StatusBits Bits => (StatusBits)Line.HexField(5);

    /// <summary>Pulse being put out, µs, 0 when ceased.</summary>
    public uint Demanded => Line.Number(7);

    /// <summary>Last pulse read back, µs.</summary>
    public uint Measured => Line.Number(8);

    /// <summary>Time between the last two tachometer pulses, µs.</summary>
    public uint Period => Line.Number(10);

    /// <summary>Lowest, mean (tenths) and highest current reading, counts.</summary>
    public (uint Lowest, uint Mean, uint Highest) Current => (Line.Number(16), Line.Number(17), Line.Number(18));

    /// <summary>Lowest, mean (tenths) and highest voltage reading, counts.</summary>
    public (uint Lowest, uint Mean, uint Highest) Voltage => (Line.Number(13), Line.Number(14), Line.Number(15));

    /// <summary>Width of the receiver's pulse, µs.</summary>
    public uint Receiver => Line.Number(26);

    /// <summary>Bad host lines, refused host lines, overruns, own lines dropped; a byte each.</summary>
    public uint Errors => Line.HexField(28);

    /// <summary>Pulse put out to the second output, µs, 0 for none.</summary>
    public uint Second => Line.Number(29);
}
