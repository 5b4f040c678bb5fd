using RigControl.Contracts;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Serial;

namespace RigControl.Devices.RigBoard.Opening;

/// <summary>
/// The first words with a board: it must answer, speak this protocol, be whole, and hold exactly what was loaded. Anything
/// else is a <see cref="DeviceException"/> with a sentence to act on.
/// </summary>
/// <param name="link">The line, just opened.</param>
/// <param name="now">Host time.</param>
internal sealed class Greeting(BoardLink link, Func<TimeSpan> now)
{
    // Two seconds in all: a board that was just reset tests its memory and program before it hears anything.
    private const int Attempts = 10;

    /// <summary>Time for one answer. A board that starts when the port opens tests its memory first.</summary>
    private static readonly TimeSpan AnswerTime = TimeSpan.FromMilliseconds(200);

    private BoardHello? _hello;
    private Receipt _receipt;

    /// <summary>Greets the board, loads a configuration, and returns how the board presented itself.</summary>
    public BoardHello Exchange(BoardConfiguration configuration)
    {
        link.StartAfresh();
        BoardHello hello = Greet();
        Judge(hello);
        Load(configuration);
        return hello;
    }

    /// <summary>Greets the board and returns how it presented itself, whatever that is worth; nothing is loaded.</summary>
    public BoardHello Introduce() => Greet();

    private BoardHello Greet()
    {
        for (int attempt = 0; attempt < Attempts; attempt++)
        {
            (LineWriter line, _) = link.Begin("hello"u8);
            line.Decimal((int)BoardHello.Spoken);
            link.Send();
            if (Answered(static g => g._hello is not null))
                return _hello!;
        }

        throw new DeviceException(link.Heard == 0
            ? $"no board answers on {link.Port}: is it powered, and is this its port?"
            : $"something talks on {link.Port}, but not as a rig board at {SerialLine.Baud} baud ({link.Spoilt} unreadable lines): is this the board's port?");
    }

    private void Judge(BoardHello hello)
    {
        if (hello.Protocol != BoardHello.Spoken)
            throw new DeviceException($"the board on {link.Port} speaks version {hello.Protocol} of the line protocol, this program version {BoardHello.Spoken}: load the firmware that came with this program");
        if (!hello.FlashGood)
            throw new DeviceException($"the board {hello.Name} on {link.Port} found its own program damaged: load its firmware again, and replace the board if that does not help");
        if (!hello.MemoryGood)
            throw new DeviceException($"the board {hello.Name} on {link.Port} found its memory faulty: replace it");
    }

    private void Load(BoardConfiguration configuration)
    {
        string text = configuration.Text;
        for (int attempt = 0; attempt < Attempts; attempt++)
        {
            (LineWriter line, ushort number) = link.Begin("load"u8);
            line.Decimal((int)BoardHello.Spoken).Text(System.Text.Encoding.ASCII.GetBytes(text));
            link.Send();
            _receipt = new Receipt { Awaited = number };
            if (!Answered(static g => g._receipt.Came))
                continue;
            // Busy passes: a board whose former host has just gone still stops the output.
            if (_receipt.Refusal != "busy")
            {
                Judge(_receipt, configuration, text);
                return;
            }

            Answered(static _ => false);
        }

        throw new DeviceException(_receipt.Refusal is null
            ? $"the board on {link.Port} does not answer when its limits are loaded"
            : $"the board on {link.Port} is still driving its output and takes no new limits: wait until it has stopped, then try again");
    }

    private void Judge(in Receipt receipt, BoardConfiguration configuration, string text)
    {
        if (receipt.Refusal is { } reason)
            throw new DeviceException($"the board on {link.Port} refuses the limits it was sent ({reason}): {text}");
        if (receipt.Digest != configuration.Digest || receipt.Echo != text)
            throw new DeviceException($"the board on {link.Port} holds other limits ({receipt.Echo}) than it was sent ({text}): do not use it until the reason is found");
    }

    // Takes lines in until what is waited for has come, or its time is over.
    private bool Answered(Func<Greeting, bool> came)
    {
        TimeSpan end = now() + AnswerTime;
        do
        {
            link.Receive();
            while (link.NextLine())
                Take(link.Line);
        }
        while (!came(this) && now() < end);
        return came(this);
    }

    private void Take(ReadOnlySpan<byte> line)
    {
        LineFields fields = new(line);
        ReadOnlySpan<byte> word = fields.Text();
        if (word.SequenceEqual("hello"u8))
            _hello = BoardHello.Read(fields) ?? _hello;
        else if (word.SequenceEqual("loaded"u8))
            _receipt.TakeLoaded(fields);
        else if (word.SequenceEqual("no"u8))
            TakeRefusal(fields);
    }

    private void TakeRefusal(LineFields fields)
    {
        fields.Hex(4);
        ushort host = (ushort)fields.Hex(4);
        ReadOnlySpan<byte> word = fields.Text();
        ReadOnlySpan<byte> reason = fields.Text();
        if (!fields.Complete)
            return;
        if (word.SequenceEqual("hello"u8) && reason.SequenceEqual("version"u8))
            throw new DeviceException($"the board on {link.Port} refuses version {BoardHello.Spoken} of the line protocol: load the firmware that came with this program");
        _receipt.TakeRefusal(host, System.Text.Encoding.ASCII.GetString(reason));
    }

    /// <summary>The answer to one <c>load</c>. Answers to other lines leave it as it is.</summary>
    private struct Receipt
    {
        public ushort Awaited;
        public bool Came;
        public string? Refusal;
        public ushort Digest;
        public string Echo;

        public void TakeLoaded(LineFields fields)
        {
            fields.Hex(4);
            ushort host = (ushort)fields.Hex(4);
            ushort digest = (ushort)fields.Hex(4);
            if (fields.Malformed || host != Awaited)
                return;
            (Came, Digest, Echo) = (true, digest, System.Text.Encoding.ASCII.GetString(fields.Rest));
        }

        public void TakeRefusal(ushort host, string reason)
        {
            if (host == Awaited)
                (Came, Refusal) = (true, reason);
        }
    }
}
