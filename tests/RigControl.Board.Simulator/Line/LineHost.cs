using System.Globalization;
using RigControl.Board.Simulator.Board;

namespace RigControl.Board.Simulator.Line;

/// <summary>A host for tests: loads a configuration and repeats its demand, echoing what it hears.</summary>
public sealed class LineHost
{
    /// <summary>Cycles between two demands. Not a round number of frames, so that their phases drift past one another.</summary>
    public const ulong Period = 80_177;

    private const ulong ByteCycles = 320;
    private const double AnswerMilliseconds = 15;
    private const int Attempts = 40;
    private readonly IBoardRig rig;
    private readonly LineReader reader = new();
    private readonly byte[] room = new byte[1024];
    private ushort sequence;
    private ulong nextDemand;

    /// <summary>A host on the line of <paramref name="rig"/>; it says nothing yet.</summary>
    public LineHost(IBoardRig rig, BoardConfiguration configuration) => (this.rig, Configuration) = (rig, configuration);

    /// <summary>The configuration to load.</summary>
    public BoardConfiguration Configuration { get; }

    /// <summary>Pulse demanded, µs.</summary>
    public int Pulse { get; set; }

    /// <summary>Whether power is demanded.</summary>
    public bool Power { get; set; }

    /// <summary>Whether the lock's release is demanded.</summary>
    public bool Release { get; set; }

    /// <summary>Pulse demanded of the second output, µs; 0 where nothing is on it.</summary>
    public int Second { get; set; }

    /// <summary>Whether the receiver's pulse is to be passed on.</summary>
    public bool Gate { get; set; }

    /// <summary>Whether the demand is repeated.</summary>
    public bool Speaking { get; set; }

    /// <summary>False for a host that talks on but no longer listens: its echo grows old.</summary>
    public bool Listening { get; set; } = true;

    /// <summary>Cycle at which the last byte of the last demand reached the board.</summary>
    public ulong LastSpoken { get; private set; }

    /// <summary>The latest state heard; null before the first.</summary>
    public BoardStatus? Status { get; private set; }

    /// <summary>Everything heard but <c>now</c> lines.</summary>
    public List<BoardLine> Heard { get; } = [];

    /// <summary>Lines of the board that were spoilt.</summary>
    public int Spoilt => reader.Spoilt;

    /// <summary>Runs rig and host to <paramref name="cycle"/>.</summary>
    public void RunUntil(ulong cycle)
    {
        while (rig.Board.Cycle < cycle)
        {
            rig.RunUntil(Math.Min(cycle, Math.Max(nextDemand, rig.Board.Cycle + 1)));
            Listen();
            if (rig.Board.Cycle >= nextDemand)
                Demand();
        }
    }

    /// <summary>Runs for a number of milliseconds.</summary>
    public void Run(double milliseconds) => RunUntil(rig.Board.Cycle + BoardClock.Cycles(milliseconds / 1000));

    /// <summary>Runs until something is so.</summary>
    /// <exception cref="BoardException">It was not so within the time.</exception>
    public void RunTo(string what, Func<bool> reached, double milliseconds = 1000)
    {
        ulong end = rig.Board.Cycle + BoardClock.Cycles(milliseconds / 1000);
        while (!reached())
        {
            if (rig.Board.Cycle >= end)
                throw new BoardException($"Waited {milliseconds} ms in vain for: {what}. The board says: {Status?.Line}; {Heard.LastOrDefault()}");
            Run(1);
        }
    }

    /// <summary>Sends a line with the next number.</summary>
    public void Say(string word, params string[] fields)
    {
        byte[] line = BoardLine.Compose(word, ++sequence, fields);
        LastSpoken = rig.Board.Cycle + (ulong)line.Length * ByteCycles;
        rig.Board.Send(line);
    }

    /// <summary>Says hello and loads the configuration, each until answered; then the demand is the stop pulse without power.</summary>
    /// <exception cref="BoardException">The board does not answer.</exception>
    public void Load()
    {
        Speaking = false;
        Ask("hello", "hello", "1");
        Ask("loaded", "load", ["1", .. Configuration.Text.Split(' ')]);
        (Pulse, Second, Power, Release, Gate, Speaking) = (Configuration.StopPulse, Configuration.Second?.Stop ?? 0, false, false, false, true);
    }

    /// <summary>Asks for a reset until the board is idle.</summary>
    /// <exception cref="BoardException">The board stays latched.</exception>
    public void Reset()
    {
        for (int attempt = 0; attempt < Attempts && Status?.Mode != "idle"; attempt++)
        {
            Say("reset", Echo);
            Run(AnswerMilliseconds);
        }

        RunTo("the reset is accepted", () => Status?.Mode == "idle", 0);
    }

    /// <summary>The number of the latest line heard, as the host echoes it.</summary>
    public string Echo => BoardLine.Hex(Status?.Line.Sequence ?? 0);

    /// <summary>Asks again and again: a board that has just started tests itself first and hears nothing meanwhile.</summary>
    private void Ask(string answer, string word, params string[] fields)
    {
        Heard.Clear();
        for (int attempt = 0; attempt < Attempts && !Heard.Any(line => line.Word == answer); attempt++)
        {
            Say(word, fields);
            Run(AnswerMilliseconds);
        }

        RunTo(answer, () => Heard.Any(line => line.Word == answer), 0);
    }

    private void Demand()
    {
        nextDemand = rig.Board.Cycle + Period;
        if (Speaking)
            Say("drive", Echo, BoardLine.Hex(Configuration.Digest), Pulse.ToString(CultureInfo.InvariantCulture), Bit(Power), Bit(Release), "0",
                Second.ToString(CultureInfo.InvariantCulture), Bit(Gate));
    }

    private void Listen()
    {
        int count;
        while ((count = rig.Board.Receive(room)) > 0)
            foreach (BoardLine line in reader.Feed(room.AsSpan(0, count)))
                Hear(line);
    }

    private void Hear(BoardLine line)
    {
        if (BoardStatus.Read(line) is not { } status)
            Heard.Add(line);
        else if (Listening)
            Status = status;
    }

    private static string Bit(bool value) => value ? "1" : "0";
}
