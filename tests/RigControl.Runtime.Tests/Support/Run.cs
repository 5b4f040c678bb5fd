namespace RigControl.Runtime.Tests.Support;

/// <summary>A session from beginning to end.</summary>
internal static class Run
{
    /// <summary>In lock-step unless told otherwise, by the scripted operator unless somebody else acts.</summary>
    public static RunResult Of(AssembledRig rig, IRunRecorder recorder, IOperator? bench = null, Pace? pace = null, Action<RunSession>? before = null)
    {
        using RunSession session = new(rig, recorder, bench ?? new ScriptedOperator(), pace ?? Pace.Max, [], null);
        before?.Invoke(session);
        return session.Run();
    }

    public static (RunResult Result, MemoryRecorder Record) Of(TestRig rig, IOperator? bench = null, Pace? pace = null, ulong seed = 1)
    {
        using AssembledRig assembled = rig.Assemble(seed);
        MemoryRecorder record = new();
        return (Of(assembled, record, bench, pace), record);
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
    private readonly ScriptedOperator _script = new();

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
