using RigControl.Contracts;
using RigControl.Model.Records;
using RigControl.Runtime.Rigs;

namespace RigControl.Campaigns;

/// <summary>What one seed showed.</summary>
/// <param name="Broken">Promises that were broken, each a sentence; empty when all held.</param>
/// <param name="LeftSafeStop">Whether the rig ever left safe-stop; a run that did not counts for nothing.</param>
/// <param name="Trips">Trips in the run.</param>
/// <param name="Held">Whether the level was held at least once.</param>
/// <param name="Latched">Interlocks that latched, one bit each, in the order of the rig.</param>
/// <param name="CameDriven">Faults that were on while the motor was driven, one bit each, in the order of the scenario.</param>
/// <param name="Length">How long the run took in true time, s.</param>
public sealed record CampaignResult(ulong Seed, IReadOnlyList<string> Broken, bool LeftSafeStop, int Trips, bool Held, uint Latched, uint CameDriven, double Length);

/// <summary>Runs one scenario: a bench with its faults, and as many sessions of the host on it as the scenario makes.</summary>
public sealed class CampaignRun
{
    private const double GiveUpAt = 90;
    private const double RestartTakes = 0.5;

    private FaultyBench? _bench;

    /// <param name="scenario">What the seed chose.</param>
    /// <param name="tamper">Plants a defect: changes what the kernel says before anybody hears it. For showing that checkers see.</param>
    public CampaignRun(Scenario scenario, TamperWith? tamper = null)
    {
        (Scenario, Tamper) = (scenario, tamper);
        Watcher = new Watcher(scenario);
        (Operator, Host, Proof) = (new CampaignOperator(scenario), new HostFaults(scenario, Time), new CampaignProof(scenario, Time));
    }

    /// <summary>Changes a scan's record on its way out.</summary>
    public delegate void TamperWith(ref ScanRecord record);

    internal Scenario Scenario { get; }

    internal TamperWith? Tamper { get; }

    internal CampaignOperator Operator { get; }

    internal HostFaults Host { get; }

    internal CampaignProof Proof { get; }

    /// <summary>Whether the session before ended without power and with the rotor proven to stand, as the record would tell the next one.</summary>
    internal bool LeftAtRest { get; set; } = true;

    internal TrueTime Time { get; } = new();

    internal bool IsDone => Time.Now >= GiveUpAt || Watcher.HeldAgain;

    internal Watcher Watcher { get; }

    internal FaultyBench Bench => _bench!;

    public CampaignResult Run()
    {
        while (OneSession() is var end && end != SessionEnd.Done)
            StayAway(end == SessionEnd.Killed ? Host.RestartAt : Time.Now + RestartTakes);
        if (!Watcher.HeldAgain)
            Watcher.Break($"{Campaign.Recovery}: not within {GiveUpAt} s");
        return new CampaignResult(Scenario.Seed, Watcher.Broken, Watcher.LeftSafeStop, Watcher.Trips, Watcher.Held, Watcher.Latched, Watcher.CameDriven, Time.Now);
    }

    private SessionEnd OneSession()
    {
        RigAssembler assembler = new(CampaignRig.Catalog(new FaultyBenchPlugin(Open)), TimeProvider.System);
        using CampaignSession session = new(this, assembler.Assemble(Scenario.Gated ? CampaignRig.Gated : CampaignRig.Driven, Scenario.Seed));
        return session.Run();
    }

    private FaultyBench Open(DeviceContext context)
    {
        _bench ??= new FaultyBench(Scenario, Time, context);
        _bench.Greet();
        return _bench;
    }

    // No host: the bench goes on by itself, and nobody says anything.
    private void StayAway(double until)
    {
        ScanRecord nothing = default;
        while (Time.Now < until)
        {
            Time.GoOn();
            Bench.KeepTime();
            Watcher.See(new Observation(Scenario, Bench.Truth, nothing, new Moment(Time.Now)));
        }
    }
}
