using System.Globalization;
using RigControl.Contracts;
using RigControl.Devices.RigBoard.Driving;
using RigControl.Devices.RigBoard.Opening;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Readings;
using RigControl.Devices.RigBoard.Serial;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Devices.RigBoard;

/// <summary>
/// The host's side of one board. Whether the board lives is judged by the age of its last good status line alone, since a
/// port says that it is open long after the cable has gone.
/// </summary>
internal sealed class RigBoardDevice : IDevice
{
    /// <summary>Silence after which the board counts as gone: fifty lines lost in a row, and half of what a call may take.</summary>
    public static readonly TimeSpan LongestSilence = TimeSpan.FromMilliseconds(250);

    private const int MicrosecondsPerByte = 20;

    private readonly BoardLink _link;
    private readonly BoardHello _hello;
    private readonly ushort _digest;
    private readonly Func<TimeSpan> _clock;
    private readonly StatusTranslator _translator;
    private readonly Driver _driver;
    private readonly BoardClock _boardClock = new();
    private bool _begun;
    private TimeSpan _lastHeard;
    private TimeSpan _arrived;
    private ushort _latest;
    private bool _anyHeard;

    private RigBoardDevice(BoardLink link, BoardHello hello, RigBoardOptions options, BoardConfiguration configuration, DeviceContext context)
    {
        (_link, _hello, _digest) = (link, hello, configuration.Digest);
        _clock = ClockOf(context);
        _translator = new StatusTranslator(options, context.Article);
        _driver = new Driver(link, configuration, context.ScanPeriod, context.Article.StoppingTime);
        Channels = BoardChannels.Declare(options);
        Identity = new Dictionary<string, string>
        {
            ["board"] = hello.Name,
            ["firmware"] = hello.Firmware,
            ["protocol"] = hello.Protocol.ToString(CultureInfo.InvariantCulture),
            ["nonce"] = hello.Nonce.ToString("X8", CultureInfo.InvariantCulture),
            ["last-reset"] = hello.ResetCause,
            ["limits"] = configuration.Digest.ToString("X4", CultureInfo.InvariantCulture),
        };
    }

    public IReadOnlyList<ChannelDeclaration> Channels { get; }

    public DeviceTraits Traits => DeviceTraits.DrivesOutput | DeviceTraits.CeasesPulses;

    /// <summary>None: it waits on the line itself.</summary>
    public TimeSpan ReadPeriod => TimeSpan.Zero;

    public IReadOnlyDictionary<string, string> Identity { get; }

    /// <summary>Greets the board on a line and loads its limits. Throws <see cref="DeviceException"/> when anything is not as it must be.</summary>
    /// <param name="line">Owned from now on, also when this fails.</param>
    /// <param name="options">What is wired, already checked.</param>
    /// <param name="configuration">What to load.</param>
    /// <param name="context">What the host says.</param>
    public static RigBoardDevice Open(ILine line, RigBoardOptions options, BoardConfiguration configuration, DeviceContext context)
    {
        BoardLink link = new(line, options.Port);
        try
        {
            BoardHello hello = new Greeting(link, ClockOf(context)).Exchange(configuration);
            return new RigBoardDevice(link, hello, options, configuration, context);
        }
        catch
        {
            link.Dispose();
            throw;
        }
    }

    /// <summary>
    /// Hands over what came before <paramref name="now"/>, then waits a few milliseconds for more, which the next call hands
    /// over: so no sample is stamped later than it may be.
    /// </summary>
    public void Read(TimeSpan now, ISampleWriter writer)
    {
        if (!_begun)
            Begin(now);
        while (_link.NextLine())
            Take(_link.Line, now, writer);
        TimeSpan silence = now - _lastHeard;
        if (silence > LongestSilence)
            throw new DeviceException($"the board on {_link.Port} has been silent for {silence.TotalMilliseconds:0} ms: look at cable and power");
        _link.Receive();
        _arrived = _clock();
    }

    public void Apply(TimeSpan now, in OutputImage outputs) => _driver.Apply(now, outputs);

    public void Dispose() => _link.Dispose();

    private static Func<TimeSpan> ClockOf(DeviceContext context) => () => context.Time.GetElapsedTime(context.Epoch);

    // Since the board was opened somebody may have thought for minutes, and the line's buffer is full of old lines.
    private void Begin(TimeSpan now)
    {
        _link.StartAfresh();
        (_begun, _lastHeard) = (true, now);
    }

    private void Take(ReadOnlySpan<byte> line, TimeSpan now, ISampleWriter writer)
    {
        LineFields fields = new(line);
        ReadOnlySpan<byte> word = fields.Text();
        if (word.SequenceEqual("now"u8))
            TakeStatus(fields, now, writer);
        else if (word.SequenceEqual("ok"u8))
            TakeAccepted(fields);
        else if (word.SequenceEqual("hello"u8))
            throw StartedAgain();
    }

    private void TakeStatus(LineFields fields, TimeSpan now, ISampleWriter writer)
    {
        // A line that came twice would let time run backwards.
        if (!BoardStatus.TryRead(fields, out BoardStatus status) || (_anyHeard && !Numbering.Follows(status.Sequence, _latest)))
            return;
        (_latest, _anyHeard) = (status.Sequence, true);
        Recognise(status);
        TimeSpan arrived = _arrived < now ? _arrived : now;
        _lastHeard = arrived;
        TimeSpan sent = arrived - TimeSpan.FromMicroseconds(_link.SentLength * MicrosecondsPerByte);
        TimeSpan at = _boardClock.HostTime(status.Time, sent);
        _translator.Write(status, at, writer);
        _driver.Hear(status, arrived);
    }

    private void TakeAccepted(LineFields fields)
    {
        ushort sequence = (ushort)fields.Hex(4);
        ushort host = (ushort)fields.Hex(4);
        if (!fields.Malformed)
            _driver.HearAccepted(sequence, host);
    }

    private void Recognise(in BoardStatus status)
    {
        if (status.Nonce != _hello.ShortNonce)
            throw StartedAgain();
        if (status.Digest != _digest)
            throw new DeviceException($"the board on {_link.Port} no longer holds the limits it was given (digest {status.Digest:X4} instead of {_digest:X4}): does another program talk to it?");
    }

    private DeviceException StartedAgain() =>
        new($"the board on {_link.Port} has started again in mid-session and forgotten its limits: look at its supply and wiring, then begin the session again");
}
