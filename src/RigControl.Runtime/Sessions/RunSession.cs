using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Devices;
using RigControl.Runtime.Recording;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Sessions;

/// <summary>One run of a procedure on an assembled rig, from start-up in safe-stop to its end.</summary>
public sealed class RunSession : IDisposable
{
    /// <summary>How long a recorder may take to write the last of a run whose interlock or device hangs: a slow disk's commit several times over, and nothing turns any more.</summary>
    private static readonly TimeSpan LongestDrain = TimeSpan.FromSeconds(2);

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
    private RealTime? _realTime;
    private ThreadWatch? _threads;
    private bool _leakTold;
    private readonly NoteBox _notes;
    private (TimeSpan Now, long Scan, int Step, int Repeat) _latest;
    private volatile bool _stopAsked;
    private bool _standsUnpowered;
    private bool _isOff;
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
    /// <param name="onKept">Hears every event once the record of it survives this process, on the recorder's thread; null for nobody.</param>
    public RunSession(
        AssembledRig rig, IRunRecorder recorder, IOperator bench, Pace pace, IReadOnlyList<RigEvent> opening, Action<RigEvent>? onEvent, IRunSink? sink = null, Action<RigEvent>? onKept = null)
    {
        if (pace.Kind != PaceKind.Real && !rig.CanRunInLockStep)
            throw new ArgumentException("a pace other than real needs a simulated rig whose devices never block");
        (_rig, _operator, _pace, _opening) = (rig, bench, pace, opening);
        _clock = rig.Clock;
        _narrator = new Narrator(rig);
        _notes = new NoteBox(rig.Documents.Procedure.Steps);
        _pump = new RecorderPump(recorder, rig.Devices.Count, onKept, pace.Kind == PaceKind.Real ? RecorderPump.Chunks : RecorderPump.ChunksInLockStep);
        _network = new NetworkPort(Inbox);
        Watch = new RunWatch(onEvent, See)
        {
            LongestRunDown = rig.Configuration.LongestCoastDown + rig.Configuration.StandstillTime,
            Verifies = rig.Configuration.Ceiling is not null,
            Sink = sink,
            SinkFailed = fault => _network.Tell(EventNames.TelemetryNote, "telemetry", $"this run is no longer published, by a fault of the publishing itself: {fault}", ""),
        };
    }

    /// <summary>
    /// Ends the process when an interlock or a device hangs, for nothing less gets rid of it: the outputs have been stopped and
    /// what was recorded is safe. Called on another thread, with a sentence that names who hangs; <see cref="Run"/> never returns then.
    /// </summary>
    public Action<string> OnHung { get; init; } = Environment.FailFast;

    /// <summary>Hears how late each scan woke, on the scan's thread; for measurements.</summary>
    internal Action<TimeSpan>? OnWake { get; init; }

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
        using (Supervisor supervisor = new(_rig.Post, GiveUpOn))
        {
            if (_pace.Kind == PaceKind.Real)
                RunInRealTime(supervisor);
            else
                RunInLockStep(supervisor);
        }

        TellRest();
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

    private void RunInLockStep(Supervisor supervisor)
    {
        _cycle = new ScanCycle(_rig, Inbox, Watch, _pump.Queue, Timeout.InfiniteTimeSpan);
        Begin(_cycle, supervisor);
        new LockStep(_rig, _cycle, _lost!, _pace.Kind == PaceKind.Max ? null : _pace.Factor).Run(IsOver);
    }

    private void RunInRealTime(Supervisor supervisor)
    {
        _realTime = new RealTime(_rig, _clock) { OnWake = OnWake };
        _cycle = new ScanCycle(_rig, Inbox, Watch, _pump.Queue, TimeSpan.Zero) { OutAt = _realTime.OutAt };
        Begin(_cycle, supervisor);
        _realTime.Run(_cycle, _lost!, IsOver);
    }

    // What the next session on this rig begins with: see ChannelNames.LeftAtRest.
    private void TellRest()
    {
        if (!_standsUnpowered)
            return;
        _cycle!.Note(new RigEvent(_cycle.Now, _cycle.ScanNumber, EventNames.LeftAtRest, HostDevice.Id, "the rotor was left without power and at rest", new Dictionary<string, object>()));
        _cycle.HandOn();
    }

    // On a virtual clock nothing real is behind any device, and there is nothing to stop.
    private void GiveUpOn(string who)
    {
        string sentence = $"{who} has not come back for {Supervisor.Deadline.TotalMilliseconds:0} ms; the outputs were stopped and the program ends";
        try
        {
            _realTime?.StopDevices();
            _cycle!.HandOnInstead(new RigEvent(_cycle.Now, _cycle.ScanNumber, EventNames.Hung, who, sentence, new Dictionary<string, object>()));
            _pump.DrainWithin(LongestDrain);
        }
        finally
        {
            OnHung(sentence);
        }
    }

    private void Begin(ScanCycle cycle, Supervisor supervisor)
    {
        _lost = new LostDevices(_rig.Devices, cycle);
        _record = new RecordWatch(cycle, _pump.Queue, _rig.Host) { MindsBacklog = _pace.Kind == PaceKind.Real };
        foreach (RigEvent happened in _opening)
            cycle.Note(happened);
        // Not left to the first scan, which takes its time on a machine that has not run this code yet.
        cycle.HandOn();
        _threads = supervisor.Threads;
        supervisor.Start();
    }

    private bool IsOver()
    {
        _network.HandOver(_cycle!);
        _rig.Host.OperatorPresent = _operator.IsPresent;
        _notes.Tell(_latest, _cycle!);
        bool unrecorded = _record!.Follow(_pump.Failure is not null);
        bool leaks = IsLeaking();
        bool unfit = unrecorded || leaks || _lost!.First is not null || _operator.HasGivenUp || _stopAsked;
        // Threads without end take the whole machine before long: nobody waits for the rotor then, and the next session hears that none saw it stand.
        return Watch.IsOver || (unfit && !Watch.WasArmed) || (leaks && _isOff);
    }

    private void See(in ScanRecord record)
    {
        _latest = (record.Now, record.Scan, record.Step, record.Repeat);
        _isOff = record is { State: RigState.SafeStop, Outputs: { Power: false, Drives: false } };
        _standsUnpowered = record is { AtStandstill: true, State: RigState.SafeStop or RigState.Idle, Outputs: { Power: false, Drives: false } };
        _operator.See(record, Inbox);
        for (int i = 0; i < record.ReceiptCount; i++)
        {
            if (record.Receipts[i].Refusal is RefusalReason.InterlockObjects or RefusalReason.CauseStands)
                _objections = _narrator.Objections(record);
        }
    }

    // Stops the rig for a plugin that starts threads without end, and says so once.
    private bool IsLeaking()
    {
        if (_threads!.Leak is not { } leak)
            return false;
        if (_cycle!.State != RigState.SafeStop)
            Inbox.Post(CommandKind.Stop, CommandSource.Host);
        if (!_leakTold)
            _cycle.Note(new RigEvent(_cycle.Now, _cycle.ScanNumber, EventNames.DeviceNote, HostDevice.Id, leak, new Dictionary<string, object>()));
        return _leakTold = true;
    }

    private RunResult Result()
    {
        StorageException? storage = _pump.Failure ?? (_cycle!.RecordLost ? new StorageException("the disk was too slow to keep the record") : null);
        string? note = _lost!.First ?? _threads!.Leak ?? storage?.Message;
        if (Watch.Completed && storage is null)
            return new RunResult(RunOutcome.Completed, [], note ?? Watch.EndedEarly, null);
        if (Watch.WasArmed || _stopAsked)
            return new RunResult(RunOutcome.SafeStop, [], note, storage);
        RunOutcome outcome = note is null ? RunOutcome.Refused : RunOutcome.Failed;
        return new RunResult(outcome, _objections, note, storage);
    }
}
