using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Devices;
using RigControl.Runtime.Recording;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;

namespace RigControl.Campaigns;

/// <summary>How a session ended.</summary>
internal enum SessionEnd
{
    /// <summary>The run is over.</summary>
    Done,

    /// <summary>The host was killed.</summary>
    Killed,

    /// <summary>What has latched, or was lost, only a restart of the host lets go.</summary>
    WantsRestart,
}

/// <summary>One life of the host on the bench: the real scan in lock-step, under the eyes of the watcher.</summary>
internal sealed class CampaignSession : IDisposable
{
    private const int Chunks = 6;
    private const int TicksPerHandOn = 10;

    // Megabytes, made once for each thread: a campaign starts hundreds of sessions a second.
    [ThreadStatic]
    private static RecordChunk[]? _chunks;

    private readonly CampaignRun _run;
    private readonly AssembledRig _rig;
    private readonly CommandInbox _inbox = new();
    private readonly ChunkQueue _queue;
    private readonly ScanCycle _cycle;
    private readonly LostDevices _lost;
    private readonly RecordWatch _recordWatch;
    private readonly ReceiptCheck _receipts;
    private readonly int _givenBefore;
    private ScanRecord _record;
    private bool _first = true;
    private bool _sinkFailed;
    private TimeSpan _missed;
    private int _unrecorded;

    public CampaignSession(CampaignRun run, AssembledRig rig)
    {
        (_run, _rig) = (run, rig);
        run.Proof.Begin(rig, run.Bench, run.Host.AllOver);
        rig.Host.LeftAtRest = run.LeftAtRest;
        run.LeftAtRest = false;
        _queue = new ChunkQueue(EmptyChunks(rig.Devices.Count));
        _cycle = new ScanCycle(rig, _inbox, new RunWatch(null, (in ScanRecord r) => _record = r), _queue, TimeSpan.Zero);
        _lost = new LostDevices(rig.Devices, _cycle);
        _recordWatch = new RecordWatch(_cycle, _queue, rig.Host) { MindsBacklog = true };
        _receipts = new ReceiptCheck(run.Watcher);
        _givenBefore = run.Operator.Given.Count;
    }

    /// <summary>Scans until something ends it.</summary>
    public SessionEnd Run()
    {
        SessionEnd? end = null;
        while (end is null)
        {
            _run.Time.GoOn();
            Tick();
            Act();
            _missed = TimeSpan.Zero;
            for (int missed = _run.Host.PeriodsMissed; missed > 0; missed--)
                Miss();
            end = End();
        }

        if (end != SessionEnd.Killed)
            Settle();
        return end.Value;
    }

    public void Dispose() => _rig.Dispose();

    private static RecordChunk[] EmptyChunks(int devices)
    {
        _chunks ??= [.. Enumerable.Range(0, Chunks).Select(_ => new RecordChunk(devices))];
        foreach (RecordChunk chunk in _chunks)
            chunk.Clear();
        return _chunks;
    }

    private SessionEnd? End()
    {
        if (_run.IsDone)
            return SessionEnd.Done;
        if (_run.Host.KillsNow())
            return SessionEnd.Killed;
        // A rig whose device is lost reads nothing, and so proves no standstill either.
        bool stopped = _record is { State: RigState.SafeStop or RigState.Idle, Outputs.Power: false } && (_record.AtStandstill || _lost.First is not null);
        bool unfit = _receipts.RestartAsked || !_run.Proof.IsConfirmed || _lost.First is not null || _sinkFailed || _cycle.RecordLost;
        return stopped && unfit && _run.Host.AllOver ? SessionEnd.WantsRestart : null;
    }

    private void Tick()
    {
        TimeSpan now = _run.Host.Clock;
        double abandoned = _run.Host.AbandonedFor();
        _run.Proof.Follow(_rig.Host);
        _rig.Host.OperatorPresent = !_run.Host.IsOn(FaultKind.OperatorLeaves);
        FollowRecord();
        for (int i = 0; i < _rig.Devices.Count; i++)
        {
            HostedDevice device = _rig.Devices[i];
            device.Read(now);
            _cycle.TakeIn(i, device.Intake.Samples.Samples);
            device.Intake.Samples.Clear();
        }

        _lost.Follow(now);
        _run.Bench.KeepTime();
        _cycle.Scan(now);
        _run.Tamper?.Invoke(ref _record);
        foreach (HostedDevice device in _rig.Devices)
            device.Apply(now, _record.Outputs);
        _receipts.See(_record);
        See(new Moment(_run.Time.Now, _first, _run.Operator.TakeStopGiven(), _unrecorded, abandoned, _run.Proof.IsTrue(_run.Bench)));
        _first = false;
        _run.LeftAtRest = _record is { AtStandstill: true, Outputs: { Power: false, Drives: false } };
    }

    private void See(Moment moment) => _run.Watcher.See(new Observation(_run.Scenario, _run.Bench.Truth, _record, moment));

    private void Act()
    {
        if (_run.Host.IsOn(FaultKind.InboxFlooded))
            _run.Operator.Flood(_inbox);
        else if (!_run.Host.IsOn(FaultKind.OperatorLeaves))
            _run.Operator.Act(_record, _run.Time.Now, _inbox);
    }

    // The recorder of the campaign keeps nothing; it is only ever slow, or fails for good.
    private void FollowRecord()
    {
        if (_cycle.ScanNumber % TicksPerHandOn == 0)
            _cycle.HandOn();
        while (!_run.Host.IsOn(FaultKind.SinkSlow) && _queue.Take(TimeSpan.Zero) is { } chunk)
            _queue.Return(chunk);
        _sinkFailed |= _run.Host.IsOn(FaultKind.SinkFails);
        _unrecorded = _recordWatch.Follow(_sinkFailed) ? _unrecorded + 1 : 0;
    }

    // A period in which the host does not come to scan: the bench goes on, and nothing new is said.
    private void Miss()
    {
        _run.Time.GoOn();
        _run.Bench.KeepTime();
        _missed += CampaignRig.Period;
        _rig.Host.NoteLateness(_missed);
        (_record.ReceiptCount, _record.Fired, _record.NewlyLatched, _record.Before) = (0, Trigger.None, 0, _record.State);
        See(new Moment(_run.Time.Now, Proven: _run.Proof.IsTrue(_run.Bench)));
    }

    // Every command given is owed a receipt, the last one too: a few more scans, and nothing may be left.
    private void Settle()
    {
        for (int i = 0; i < 20; i++)
        {
            _run.Time.GoOn();
            Tick();
        }

        _receipts.Settle(_run.Operator.Given.Skip(_givenBefore));
    }
}
