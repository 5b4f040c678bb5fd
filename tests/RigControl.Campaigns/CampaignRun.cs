using RigControl.Contracts;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Devices;
using RigControl.Runtime.Recording;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;

namespace RigControl.Campaigns;

/// <summary>What one seed showed.</summary>
/// <param name="Broken">Promises that were broken, each a sentence; empty when all held.</param>
/// <param name="LeftSafeStop">Whether the rig ever left safe-stop; a run that did not counts for nothing.</param>
/// <param name="Trips">Trips in the run.</param>
/// <param name="Held">Whether the level was held at least once.</param>
public sealed record CampaignResult(ulong Seed, IReadOnlyList<string> Broken, bool LeftSafeStop, int Trips, bool Held);

/// <summary>Runs one scenario: the real scan, in lock-step with the faulted bench, under the eyes of the checkers.</summary>
public sealed class CampaignRun
{
    private const double GiveUpAt = 75;
    private const int LidContact = 6;
    private const int LidOpenContact = 7;

    private readonly Scenario _scenario;
    private readonly Tamper? _tamper;
    private readonly CampaignOperator _operator;
    private readonly HashSet<long> _answered = [];
    private readonly Checker[] _checkers =
    [
        new NeverDrivenTripped(), new DemandNeverRisesAfterTrip(), new OutputOnlyAfterThreeActs(), new WarningBeforeEveryRise(),
        new SpeedStaysBounded(), new UnlockedMeansSafe(), new SafeStopLeftOnlyByReset(), new RestartLandsInSafeStop(), new OpenLidEndsDrive(),
    ];

    private readonly List<string> _broken = [];
    private FaultyBench? _bench;
    private ScanRecord _record;
    private bool _leftSafeStop;
    private bool _held;
    private bool _heldAgain;
    private int _trips;
    private double _jump;

    /// <param name="tamper">Plants a defect: changes what the kernel says before anybody hears it. For showing that checkers see.</param>
    public CampaignRun(Scenario scenario, Tamper? tamper = null)
    {
        (_scenario, _tamper) = (scenario, tamper);
        _operator = new CampaignOperator(scenario);
    }

    /// <summary>Changes a scan's record on its way out.</summary>
    public delegate void Tamper(ref ScanRecord record);

    public CampaignResult Run()
    {
        PlannedFault? restart = _scenario.Faults.FirstOrDefault(f => f.Kind == FaultKind.HostRestart);
        double now = 0;
        if (restart is not null)
            now = Session(0, restart.From, restart);
        Session(restart is null ? 0 : Math.Max(now, restart.To), GiveUpAt, null);
        foreach (Checker checker in _checkers)
        {
            if (checker.Broken is { } sentence)
                _broken.Add(sentence);
        }

        if (MustRecover && !_heldAgain)
            _broken.Add($"with the faults ended a patient operator reaches hold again: not within {GiveUpAt} s, last in {_record.State}");
        return new CampaignResult(_scenario.Seed, _broken, _leftSafeStop, _trips, _held);
    }

    // A device that threw, and a host whose clock went back, are out until somebody restarts the host; two lid contacts that
    // contradicted each other want the lid opened and closed, which nobody does here.
    private bool MustRecover => !_scenario.Has(FaultKind.DeviceThrows, FaultKind.ClockStep)
        && _scenario.Faults.All(f => f.Kind < FaultKind.SensorStuck || f.Channel is not (LidContact or LidOpenContact));

    private double Session(double from, double until, PlannedFault? endedBy)
    {
        using AssembledRig rig = new RigAssembler(CampaignRig.Catalog(new FaultyBenchPlugin(Open)), TimeProvider.System).Assemble(CampaignRig.Documents, _scenario.Seed);
        rig.ConfirmFailsafe();
        CommandInbox inbox = new();
        ChunkQueue queue = new(3, rig.Devices.Count);
        ScanCycle cycle = new(rig, inbox, new RunWatch(null, See), queue, Timeout.InfiniteTimeSpan);
        LostDevices lost = new(rig.Devices, cycle);
        List<long> owed = [];
        long first = (long)Math.Ceiling(from / CampaignRig.Period.TotalSeconds) + 1;
        TimeSpan now = default;
        for (long n = first; ; n++)
        {
            now = CampaignRig.Period * n + TimeSpan.FromSeconds(Jump(CampaignRig.Period.TotalSeconds * n));
            if (now.TotalSeconds >= until || IsDone(now.TotalSeconds))
                break;
            Tick(rig, cycle, lost, queue, now, n == first);
            int given = _operator.Given.Count;
            _operator.Act(_record, inbox);
            owed.AddRange(_operator.Given.Skip(given));
        }

        Settle(rig, cycle, lost, queue, now, owed);
        return now.TotalSeconds;
    }

    private bool IsDone(double now) => now > Scenario.FaultWindow && (_heldAgain || !MustRecover) && now > Scenario.FaultWindow + 1;

    private FaultyBench Open(DeviceContext context) => _bench ??= new FaultyBench(_scenario, context);

    private double Jump(double plain)
    {
        foreach (PlannedFault fault in _scenario.Faults)
        {
            if (fault.Kind == FaultKind.ClockStep && plain >= fault.From && _jump == 0)
                _jump = fault.Size < 0.5 ? -0.5 : fault.Size * 2;
        }

        return _jump;
    }

    private void Tick(AssembledRig rig, ScanCycle cycle, LostDevices lost, ChunkQueue queue, TimeSpan now, bool first)
    {
        for (int i = 0; i < rig.Devices.Count; i++)
        {
            HostedDevice device = rig.Devices[i];
            device.Read(now);
            cycle.TakeIn(i, device.Intake.Samples.Samples);
            device.Intake.Samples.Clear();
        }

        lost.Follow(now);
        cycle.Scan(now);
        _tamper?.Invoke(ref _record);
        OutputImage outputs = _record.Outputs;
        foreach (HostedDevice device in rig.Devices)
            device.Apply(now, outputs);
        Observation seen = new(_scenario, _bench!.Truth, _record, now.TotalSeconds, first);
        foreach (Checker checker in _checkers)
            checker.See(seen);
        Note(now.TotalSeconds);
        while (queue.Take(TimeSpan.Zero) is { } chunk)
            queue.Return(chunk);
    }

    private void See(in ScanRecord record) => _record = record;

    private void Note(double now)
    {
        _leftSafeStop |= _record.State != RigState.SafeStop;
        _held |= _record.State == RigState.Hold;
        _heldAgain |= _record.State == RigState.Hold && now > Scenario.FaultWindow;
        _trips += _record.Fired == Trigger.Trip ? 1 : 0;
        for (int i = 0; i < _record.ReceiptCount; i++)
        {
            Receipt receipt = _record.Receipts[i];
            if (receipt.Source != CommandSource.Host && !_answered.Add(receipt.Command))
                _broken.Add($"every command has one receipt: command {receipt.Command} has two");
        }
    }

    // Every command given is owed a receipt, the last one too: a few more scans, and nothing may be left.
    private void Settle(AssembledRig rig, ScanCycle cycle, LostDevices lost, ChunkQueue queue, TimeSpan now, List<long> owed)
    {
        for (int i = 1; i <= 20; i++)
            Tick(rig, cycle, lost, queue, now + CampaignRig.Period * i, first: false);
        foreach (long id in owed.Where(id => !_answered.Contains(id)))
            _broken.Add($"every command has one receipt: command {id} has none");
        _answered.Clear();
        _operator.Given.Clear();
    }
}
