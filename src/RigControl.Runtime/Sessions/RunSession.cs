using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Recording;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Sessions;

/// <summary>One run of a procedure on an assembled rig, from start-up in safe-stop to its end.</summary>
public sealed class RunSession : IDisposable
{
    private readonly AssembledRig _rig;
    private readonly IOperator _operator;
    private readonly RecorderPump _pump;
    private readonly Narrator _narrator;
    private readonly Pace _pace;
    private readonly SessionClock _clock;
    private readonly IReadOnlyList<RigEvent> _opening;
    private IReadOnlyList<Objection> _objections = [];
    private LostDevices? _lost;
    private RecordWatch? _record;
    private ScanCycle? _cycle;
    private readonly NoteBox _notes;
    private (TimeSpan Now, long Scan, int Step, int Repeat) _latest;
    private volatile bool _stopAsked;
    private readonly NetworkPort _network;

    /// <summary>Most notes that may wait for the next scan.</summary>
    public const int MostNotes = 16;

    /// <summary>Longest note, characters; what is longer is cut.</summary>
    public const int LongestNote = 200;

    /// <param name="rig">Assembled, its devices open.</param>
    /// <param name="recorder">Where the run is written; the caller's to finish and close.</param>
    /// <param name="bench">Who acts.</param>
    /// <param name="pace">How fast the clock runs.</param>
    /// <param name="opening">What happened before the first scan and belongs into the record.</param>
    /// <param name="onEvent">Hears every event, on the scan's thread; must return at once.</param>
    /// <param name="sink">Sees every scan and hears every event beside the recorder; null for nobody.</param>
    public RunSession(
        AssembledRig rig, IRunRecorder recorder, IOperator bench, Pace pace, IReadOnlyList<RigEvent> opening, Action<RigEvent>? onEvent, IRunSink? sink = null)
    {
        if (pace.Kind != PaceKind.Real && !rig.CanRunInLockStep)
            throw new ArgumentException("a pace other than real needs a simulated rig whose devices never block");
        (_rig, _operator, _pace, _opening) = (rig, bench, pace, opening);
        _clock = rig.Clock;
        _narrator = new Narrator(rig);
        _notes = new NoteBox(rig.Documents.Procedure.Steps);
        _pump = new RecorderPump(recorder, rig.Devices.Count);
        _network = new NetworkPort(Inbox);
        Watch = new RunWatch(onEvent, See) { LongestRunDown = rig.Configuration.LongestCoastDown + rig.Configuration.StandstillTime, Sink = sink };
    }

    public CommandInbox Inbox { get; } = new();

    public RunWatch Watch { get; }

    /// <summary>The door for those who are not at the bench.</summary>
    public INetworkPort Network => _network;

    /// <summary>Stops the rig and ends the session once it stands. Asking twice changes nothing.</summary>
    public void Stop()
    {
        Inbox.Post(CommandKind.Stop, CommandSource.Bench);
        _stopAsked = true;
    }

    /// <summary>Adds a person's words to the record. False where there are none or too many wait.</summary>
    public bool AddNote(string text) => _notes.Post(text);

    /// <summary>Runs to the end. Everything recorded is written and committed when it returns.</summary>
    public RunResult Run()
    {
        if (_pace.Kind == PaceKind.Real)
            RunInRealTime();
        else
            RunInLockStep();
        try
        {
            _pump.Drain();
        }
        catch (StorageException)
        {
            // Reported as the result's storage failure below.
        }

        return Result();
    }

    public void Dispose() => _pump.Dispose();

    private void RunInLockStep()
    {
        _cycle = new ScanCycle(_rig, Inbox, Watch, _pump.Queue, Timeout.InfiniteTimeSpan);
        Begin(_cycle);
        new LockStep(_rig, _cycle, _lost!, _pace.Kind == PaceKind.Max ? null : _pace.Factor).Run(IsOver);
    }

    private void RunInRealTime()
    {
        RealTime scheduler = new(_rig, _clock);
        _cycle = new ScanCycle(_rig, Inbox, Watch, _pump.Queue, TimeSpan.Zero) { OutAt = scheduler.OutAt };
        Begin(_cycle);
        scheduler.Run(_cycle, _lost!, IsOver);
    }

    private void Begin(ScanCycle cycle)
    {
        _lost = new LostDevices(_rig.Devices, cycle);
        _record = new RecordWatch(cycle, _pump.Queue, _rig.Host) { MindsBacklog = _pace.Kind == PaceKind.Real };
        foreach (RigEvent happened in _opening)
            cycle.Note(happened);
    }

    private bool IsOver()
    {
        _network.HandOver(_cycle!);
        _rig.Host.OperatorPresent = _operator.IsPresent;
        _notes.Tell(_latest, _cycle!);
        bool unrecorded = _record!.Follow(_pump.Failure is not null);
        bool unfit = unrecorded || _lost!.First is not null || _operator.HasGivenUp || _stopAsked;
        return Watch.IsOver || (unfit && !Watch.WasArmed);
    }

    private void See(in ScanRecord record)
    {
        _latest = (record.Now, record.Scan, record.Step, record.Repeat);
        _operator.See(record, Inbox);
        for (int i = 0; i < record.ReceiptCount; i++)
        {
            if (record.Receipts[i].Refusal is RefusalReason.InterlockObjects or RefusalReason.CauseStands)
                _objections = _narrator.Objections(record);
        }
    }

    private RunResult Result()
    {
        StorageException? storage = _pump.Failure ?? (_cycle!.RecordLost ? new StorageException("the disk was too slow to keep the record") : null);
        string? note = _lost!.First ?? storage?.Message;
        if (Watch.Completed && storage is null)
            return new RunResult(RunOutcome.Completed, [], note ?? Watch.EndedEarly, null);
        if (Watch.WasArmed || _stopAsked)
            return new RunResult(RunOutcome.SafeStop, [], note, storage);
        RunOutcome outcome = note is null ? RunOutcome.Refused : RunOutcome.Failed;
        return new RunResult(outcome, _objections, note, storage);
    }
}
