using System.Globalization;
using System.Text;
using RigControl.Devices.RigBoard.Protocol;

namespace RigControl.Devices.RigBoard.Tests.Double;

/// <summary>
/// A board as its line protocol describes it, for the host's side to talk to: written from <c>shared/board/protocol.md</c>,
/// in text and without the code under test but for its names of bits and causes. Time passes in steps of a millisecond.
/// </summary>
public sealed partial class BoardDouble
{
    private const int Frame = 5;
    private const int Silence = 97;
    private const int EchoAge = 50;
    private readonly Dictionary<ushort, long> _written = [];
    private readonly StringBuilder _incoming = new();
    private string[] _configuration = [];
    private ushort _sequence = 0xFF00;
    private ushort _digest;
    private ushort _accepted;
    private long _heard = long.MinValue / 2;
    private long _astraySince;
    private bool _confirmed;
    private long _now = 12_345;

    /// <summary>Called with every line that the board writes, its check and line feed included.</summary>
    public Action<byte[]> Write { get; set; } = _ => { };

    public string Protocol { get; set; } = "1";

    public string Flash { get; set; } = "good";

    public string Memory { get; set; } = "good";

    public uint Nonce { get; private set; } = 0x1234ABCD;

    /// <summary>Contacts as they stand.</summary>
    internal BoardBits Contacts { get; set; } = BoardBits.LidContactA | BoardBits.LidContactB | BoardBits.BoltHome | BoardBits.StopClear | BoardBits.Receiver;

    /// <summary>The contactor's coil is cut, or its contacts are welded.</summary>
    public bool? ContactorStuck { get; set; }

    /// <summary>The pin is stuck: what is read back instead of the pulse put out.</summary>
    public int? PulseStuck { get; set; }

    /// <summary>Lowest, mean in tenths and highest of voltage, current, thermistor 1 and 2.</summary>
    public string Analog { get; set; } = "400 4050 420 512 5120 512 500 5120 520 500 5120 520";

    public string Wires { get; set; } = "0";

    /// <summary>Pulses, period, shortest and age of the tachometer.</summary>
    public string Tachometer { get; set; } = "0 0 0 9999999";

    /// <summary>How much faster than the host the board's clock runs, as a share.</summary>
    public double Drift { get; set; }

    /// <summary>Causes that stand whatever the contacts say.</summary>
    internal BoardCauses Standing { get; set; }

    /// <summary>Whether the board's clock and lines stand still: its supply is gone.</summary>
    public bool Dead { get; set; }

    internal BoardCauses Latched { get; private set; } = BoardCauses.Start | BoardCauses.Silent;

    public int Pulse { get; private set; }

    public bool Power { get; private set; }

    public bool Released { get; private set; }

    public bool Marker { get; private set; }

    public int Demanded { get; private set; }

    public bool PowerDemanded { get; private set; }

    public int Resets { get; private set; }

    /// <summary>Width of the receiver's pulse, us.</summary>
    public int Receiver { get; set; } = 1500;

    public int SecondDemanded { get; private set; }

    public bool GateDemanded { get; private set; }

    private int SecondStop => _configuration.Length < 19 ? 0 : int.Parse(_configuration[16], CultureInfo.InvariantCulture);

    public List<string> Heard { get; } = [];

    public List<string> Refusals { get; } = [];

    public int SpoiltLines { get; private set; }

    public string Configuration => string.Join(' ', _configuration);

    /// <summary>Starts the board afresh: everything loaded is forgotten.</summary>
    public void Restart()
    {
        Nonce += 0x11111;
        (_digest, _confirmed, Pulse, Power, Demanded, PowerDemanded) = (0, false, 0, false, 0, false);
        (_sequence, _now, _heard) = (0, 0, long.MinValue / 2);
        _written.Clear();
        Latched = BoardCauses.Start | BoardCauses.Silent;
        WriteHello();
    }

    /// <summary>Forgets what was loaded, as if another host had loaded something else.</summary>
    public void LoseConfiguration() => _digest ^= 0x5555;

    internal void Latch(BoardCauses causes) => Latched |= causes;

    /// <summary>Lets a millisecond pass.</summary>
    public void Tick()
    {
        if (Dead)
            return;
        _now++;
        Watch();
        Decide();
        if (_now % Frame == 0)
            WriteStatus();
    }

    private void Watch()
    {
        BoardCauses standing = Standing;
        if ((Contacts & (BoardBits.LidContactA | BoardBits.LidContactB)) != (BoardBits.LidContactA | BoardBits.LidContactB))
            standing |= BoardCauses.Lid;
        if ((Contacts & BoardBits.StopClear) == 0)
            standing |= BoardCauses.Stop;
        if (_now - _heard > Silence)
        {
            // A host that has fallen silent demands nothing any more.
            standing |= BoardCauses.Silent;
            (Demanded, PowerDemanded) = (_configuration.Length == 0 ? 0 : Stop, false);
        }

        if (GateDemanded && Receiver == 0)
            standing |= BoardCauses.Receiver;
        if (IsClosed() == Power)
            _astraySince = _now;
        if (_now - _astraySince > ContactorTime)
            standing |= BoardCauses.Contactor;
        StandingNow = standing;
        Latched |= standing;
    }

    private BoardCauses StandingNow { get; set; }

    private int ContactorTime => _configuration.Length == 0 ? 20 : int.Parse(_configuration[12], CultureInfo.InvariantCulture);

    private int Stop => int.Parse(_configuration[0], CultureInfo.InvariantCulture);

    private bool IsClosed() => ContactorStuck ?? Power;

    private void Decide()
    {
        Pulse = !_confirmed ? 0 : Latched == BoardCauses.None ? GateDemanded ? Receiver : Demanded : _configuration[15] == "cease" ? 0 : Stop;
        Power = _confirmed && Latched == BoardCauses.None && PowerDemanded;
    }

    private void WriteStatus()
    {
        BoardBits bits = Contacts
            | (IsClosed() ? BoardBits.ContactorClosed : 0) | (Power ? BoardBits.PowerOn : 0)
            | (Released ? BoardBits.LockReleased : 0) | (Marker ? BoardBits.MarkerOn : 0) | (Pulse != 0 ? BoardBits.PulsesRunning : 0)
            | (GateDemanded && Latched == BoardCauses.None ? BoardBits.GateOpen : 0);
        string mode = !_confirmed ? "bare" : Latched != BoardCauses.None ? "trip" : Pulse != 0 && Pulse != Stop ? "spin" : Power ? "live" : "idle";
        long time = (long)(_now * 1000 * (1 + Drift)) % (1L << 31);
        Say("now", $"{time} {(ushort)Nonce:X4} {_digest:X4} {mode} {(ushort)Latched:X4} {(ushort)bits:X4} 07 {Pulse} {PulseStuck ?? Pulse} "
            + $"{Tachometer} {Analog} {Wires} {Receiver} {_accepted:X4} 00{Refusals.Count % 256:X2}0000 {SecondDemanded}");
    }

    private void WriteHello() => Say("hello", Protocol == "1"
        ? $"1 1.0.0 bench-1 {Nonce:X8} power {Flash} {Memory} {_digest:X4}"
        : $"{Protocol} 9.0.0 something else that this version cannot know");

    private void Say(string word, string rest)
    {
        _sequence++;
        _written[_sequence] = _now;
        Write(Compose($"{word} {_sequence:X4} {rest} "));
    }

    /// <summary>Text, which ends with a space, with its check and line feed. The check is reckoned bit by bit, as the protocol writes it.</summary>
    public static byte[] Compose(string text)
    {
        int crc = 0xFFFF;
        foreach (char letter in text)
        {
            crc ^= letter << 8;
            for (int bit = 0; bit < 8; bit++)
                crc = (crc & 0x8000) != 0 ? (crc << 1 ^ 0x1021) & 0xFFFF : crc << 1;
        }

        return Encoding.ASCII.GetBytes($"{text}#{crc:X4}\n");
    }
}
