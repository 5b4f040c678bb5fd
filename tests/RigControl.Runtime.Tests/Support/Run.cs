namespace RigControl.Runtime.Tests.Support;

/// <summary>A session from beginning to end.</summary>
internal static class Run
{
    /// <summary>In lock-step unless told otherwise, by the scripted operator unless somebody else acts.</summary>
    public static RunResult Of(AssembledRig rig, IRunRecorder recorder, IOperator? bench = null, Pace? pace = null, Action<RunSession>? before = null)
    {
        using RunSession session = new(rig, recorder, bench ?? new ScriptedOperator(rig.Documents.Procedure), pace ?? Pace.Max, [], null);
        before?.Invoke(session);
        return session.Run();
    }

    public static (RunResult Result, MemoryRecorder Record) Of(TestRig rig, IOperator? bench = null, Pace? pace = null, ulong seed = 1)
    {
        using AssembledRig assembled = rig.Assemble(seed);
        MemoryRecorder record = new();
        return (Of(assembled, record, bench, pace), record);
    }

    /// <summary>Replays a record: what differs first, if anything does, and how many scans were equal.</summary>
    public static (string? Difference, long Equal) Again(TestRig rig, IReadOnlyList<Channel> channels, IReadOnlyList<ScanRecord> scans, IReadOnlyList<List<Sample>> samples)
    {
        return Again(Replay.Of(rig.Documents, channels, rig.Catalog), scans, samples);
    }

    public delegate string? Next(in ScanRecord recorded);

    /// <summary>Replays a record as prepared. <paramref name="next"/> takes each scan; by default it compares every bit.</summary>
    public static (string? Difference, long Equal) Again(Replay replay, IReadOnlyList<ScanRecord> scans, IReadOnlyList<List<Sample>> samples, Next? next = null)
    {
        next ??= replay.Next;
        long[] fed = new long[samples.Count];
        for (int place = 0; place < scans.Count; place++)
        {
            ScanRecord scan = scans[place];
            for (int device = 0; device < samples.Count; device++)
            {
                for (; fed[device] < scan.Watermarks[device]; fed[device]++)
                    replay.Take(samples[device][(int)fed[device]]);
            }

            if (next(scan) is { } difference)
                return (difference, place);
        }

        return (null, scans.Count);
    }
}

/// <summary>Does nothing, and leaves after a number of scans.</summary>
internal sealed class LeavingOperator(int after) : IOperator
{
    private int _seen;

    public string Name => "leaving";

    public bool HasGivenUp => _seen >= after;

    public void See(in ScanRecord record, CommandInbox inbox) => _seen++;
}

/// <summary>Acts as the script does, and does one thing more when a scan asks for it.</summary>
internal sealed class MeddlingOperator(Meddling meddle) : IOperator
{
    private readonly ScriptedOperator _script = new(new TestRig().Documents.Procedure);

    public string Name => "meddling";

    public bool HasGivenUp => _script.HasGivenUp;

    public void See(in ScanRecord record, CommandInbox inbox)
    {
        _script.See(record, inbox);
        meddle(record, inbox);
    }
}

/// <summary>What is done after a scan.</summary>
internal delegate void Meddling(in ScanRecord record, CommandInbox inbox);
