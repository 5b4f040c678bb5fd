using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Campaigns.Tests;

/// <summary>Many seeded, faulted runs; and proof that each checker sees the defect it is there for.</summary>
public class CampaignTests(ITestOutputHelper output)
{
    /// <summary>Seeds in the ordinary test run; a million have a command of their own.</summary>
    private const int Seeds = 2000;

    // No fault, an operator who keeps to the order: whatever a checker finds here was planted.
    private static readonly Scenario Quiet = new() { Seed = 1, Faults = [], Restlessness = 0 };

    [Trait("Requirement", "SAF-025")]
    [Fact]
    public void Whatever_goes_wrong_every_promise_holds()
    {
        List<string> broken = [];
        Summary summary = Campaign.Run(first: 1, Seeds, sentence =>
        {
            lock (broken)
                broken.Add(sentence);
        });
        output.WriteLine(summary.ToString());
        Assert.Empty(broken);
        Assert.True(summary.Counted > Seeds * 9 / 10, $"too few runs ever left safe-stop: {summary}");
        Assert.True(summary.Held > Seeds / 2, $"too few runs ever held a level: {summary}");
        Assert.True(summary.Trips > Seeds / 2, $"too few faults ever tripped: {summary}");
    }

    [Fact]
    public void The_same_seed_gives_the_same_run()
    {
        CampaignResult once = new CampaignRun(Scenario.Of(42)).Run();
        CampaignResult again = new CampaignRun(Scenario.Of(42)).Run();
        Assert.Equal(once.Trips, again.Trips);
        Assert.Equal(once.Held, again.Held);
        Assert.Equal(once.Broken, again.Broken);
    }

    [Fact]
    public void A_run_without_faults_holds_its_level_and_breaks_nothing()
    {
        CampaignResult result = new CampaignRun(Quiet).Run();
        Assert.True(result.Held);
        Assert.Equal(0, result.Trips);
        Assert.Empty(result.Broken);
    }

    [Fact]
    public void Every_kind_of_fault_comes_up_in_the_slice()
    {
        HashSet<FaultKind> seen = [.. Enumerable.Range(1, Seeds).SelectMany(s => Scenario.Of((ulong)s).Faults).Select(f => f.Kind)];
        Assert.Equal(Enum.GetValues<FaultKind>().Order(), seen.Order());
    }

    [Fact]
    public void A_kernel_that_drives_through_a_tripped_interlock_is_caught() => Caught(
        "nothing is driven with an interlock tripped or Bad", Quiet,
        (ref ScanRecord r) => r.Demands[0].Action = r.State == RigState.Hold ? DemandAction.CutPower : r.Demands[0].Action);

    [Fact]
    public void A_kernel_that_drives_on_after_a_trip_is_caught() => Caught(
        "after a trip the demand never rises without a new start", With(FaultKind.StopPressed, 6.0, 7.0),
        (ref ScanRecord r) => r.Outputs.Throttle = r.State == RigState.SafeStop && r.Now.TotalSeconds > 6.2 ? 0.2 : r.Outputs.Throttle);

    [Fact]
    public void A_kernel_that_drives_before_it_is_started_is_caught() => Caught(
        "no output without reset, arm and start from the bench, in this order", Quiet,
        (ref ScanRecord r) => r.Outputs.Throttle = r.Phase == ArmingPhase.AwaitingStart ? 0.1 : r.Outputs.Throttle);

    [Fact]
    public void A_kernel_that_cuts_the_warning_short_is_caught() => Caught(
        "three seconds of warning stand before every rise from stop", Quiet,
        (ref ScanRecord r) => r.Outputs.Throttle = r.Phase == ArmingPhase.Warning && r.Now.TotalSeconds > 4 ? 0.1 : r.Outputs.Throttle);

    [Fact]
    public void A_kernel_that_lets_the_rotor_run_away_is_caught() => Caught(
        "the true speed stays below the limit plus what acceleration times reaction adds", Quiet,
        (ref ScanRecord r) =>
        {
            if (r.State is RigState.SpinUp or RigState.Hold or RigState.SafeStop && r.Now.TotalSeconds > 5)
                r.Outputs = new OutputImage { Throttle = 1, Pulse = 2000, Switches = OutputSwitches.Power };
        });

    [Fact]
    public void A_kernel_that_unlocks_a_turning_rotor_is_caught() => Caught(
        "an open lock means power off and a rotor at rest", Quiet,
        (ref ScanRecord r) => r.Outputs.Switches |= r.State == RigState.CoastDown ? OutputSwitches.Unlocked : OutputSwitches.None);

    [Fact]
    public void A_kernel_that_leaves_safe_stop_by_itself_is_caught() => Caught(
        "safe-stop is left only by the bench's reset at standstill", Quiet,
        (ref ScanRecord r) => r.ReceiptCount = r.Before == RigState.SafeStop ? (byte)0 : r.ReceiptCount);

    [Fact]
    public void A_host_that_starts_under_power_is_caught() => Caught(
        "a host that starts is in safe-stop with output and power off", Quiet,
        (ref ScanRecord r) => r.Outputs.Switches |= r.Scan == 1 ? OutputSwitches.Power : OutputSwitches.None);

    [Fact]
    public void A_kernel_that_drives_with_the_lid_open_is_caught() => Caught(
        "a lid that is really open ends the drive within the reaction time",
        Quiet with { Faults = [new PlannedFault(FaultKind.LidForced, 7, 9, 0, 0), new PlannedFault(FaultKind.ContactorWelded, 1, 14, 0, 0)] },
        (ref ScanRecord r) =>
        {
            if (r.Now.TotalSeconds is > 5 and < 10)
                r.Outputs = new OutputImage { Throttle = 0.3, Pulse = 1300, Switches = OutputSwitches.Power };
        });

    [Fact]
    public void A_kernel_that_answers_a_command_twice_is_caught() => Caught(
        "every command has one receipt", Quiet,
        (ref ScanRecord r) =>
        {
            if (r.ReceiptCount == 1)
                r.Receipts[r.ReceiptCount++] = r.Receipts[0];
        });

    [Fact]
    public void A_kernel_that_never_holds_again_is_caught() => Caught(
        "with the faults ended a patient operator reaches hold again", Quiet,
        (ref ScanRecord r) => r.State = r.State == RigState.Hold ? RigState.SpinUp : r.State);

    private static Scenario With(FaultKind kind, double from, double to) =>
        Quiet with { Faults = [new PlannedFault(kind, from, to, 0, 0.5)] };

    private static void Caught(string promise, Scenario scenario, CampaignRun.Tamper defect)
    {
        CampaignResult result = new CampaignRun(scenario, defect).Run();
        Assert.Contains(result.Broken, sentence => sentence.StartsWith(promise, StringComparison.Ordinal));
    }
}
