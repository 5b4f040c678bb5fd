using RigControl.Model.Records;

namespace RigControl.Telemetry.Commands;

/// <summary>
/// Counts what was refused, and writes it into the record: the first of a kind at once, the rest as a number now and then, so
/// that a flood leaves a line and not a flood.
/// </summary>
internal sealed class RefusalBook(TimeProvider time, Action<string, string, string> tell)
{
    /// <summary>Shortest time between two lines of one kind.</summary>
    public static readonly TimeSpan Pause = TimeSpan.FromSeconds(10);

    private readonly Lock _lock = new();
    private readonly long[] _untold = new long[Enum.GetValues<RefusalKind>().Length];
    private readonly long[] _toldAt = new long[Enum.GetValues<RefusalKind>().Length];
    private readonly bool[] _told = new bool[Enum.GetValues<RefusalKind>().Length];
    private long _count;

    /// <summary>All that was refused.</summary>
    public long Count => Interlocked.Read(ref _count);

    /// <param name="client">Who sent it; empty where nobody knows.</param>
    public void Add(RefusalKind kind, string command, string client)
    {
        Interlocked.Increment(ref _count);
        long before;
        lock (_lock)
        {
            int place = (int)kind;
            _untold[place]++;
            if (_told[place] && time.GetElapsedTime(_toldAt[place]) < Pause)
                return;
            before = _untold[place] - 1;
            (_untold[place], _told[place], _toldAt[place]) = (0, true, time.GetTimestamp());
        }

        string more = before == 0 ? "" : $", and {before} more of the kind before it";
        tell(command, $"{command} from the network refused: {Sentence(kind)}{more}", client);
    }

    /// <summary>Tells what is still untold.</summary>
    public void Close()
    {
        foreach (RefusalKind kind in Enum.GetValues<RefusalKind>())
        {
            long untold;
            lock (_lock)
                (untold, _untold[(int)kind]) = (_untold[(int)kind], 0);
            if (untold > 0)
                tell("command", $"{untold} more commands from the network refused: {Sentence(kind)}", "");
        }
    }

    /// <summary>The reason as a person reads it.</summary>
    public static string Sentence(RefusalKind kind) => kind switch
    {
        RefusalKind.Retained => "it was kept by the broker, and nobody knows for how long",
        RefusalKind.Expired => "its time is over, or too far ahead; see that both clocks are right",
        RefusalKind.Repeated => "it was here before",
        RefusalKind.Oversized => "it is too large for a command",
        RefusalKind.Denied => "the client has no right to it",
        RefusalKind.Pointless => "there is nothing it could act on",
        _ => "it is not written as a command",
    };

    /// <summary>Name of the event in the record.</summary>
    public static string EventName => EventNames.NetworkRefusal;
}
