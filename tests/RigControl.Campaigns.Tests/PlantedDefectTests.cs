using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Campaigns.Tests;

/// <summary>Each promise is shown to be watched: a kernel, or a bench, with a planted defect breaks it and is caught.</summary>
public class PlantedDefectTests
{
    private static readonly Scenario BothWaysGone = Plant.With(FaultKind.ContactorWelded, 1, 14);

    // By the beginning of the promise.
    private static readonly Dictionary<string, (Scenario Scenario, CampaignRun.TamperWith? Defect)> Defects = new()
    {
        ["nothing is driven with an interlock tripped"] = (Plant.Quiet,
            (ref ScanRecord r) => r.Demands[0].Action = r.State == RigState.Hold ? DemandAction.CutPower : r.Demands[0].Action),
        ["after a trip the demand never rises"] = (Plant.With(FaultKind.StopPressed, 6, 7),
            (ref ScanRecord r) => r.Outputs.Throttle = r.State == RigState.SafeStop && At(r) > 6.2 ? 0.2 : r.Outputs.Throttle),
        ["no output without reset, arm and start"] = (Plant.Quiet,
            (ref ScanRecord r) => r.Outputs.Throttle = r.Phase == ArmingPhase.AwaitingStart ? 0.1 : r.Outputs.Throttle),
        ["three seconds of warning"] = (Plant.Quiet,
            (ref ScanRecord r) => r.Outputs.Throttle = r.Phase == ArmingPhase.Warning && At(r) > 4 ? 0.1 : r.Outputs.Throttle),
        ["a host that starts is in safe-stop"] = (Plant.Quiet,
            (ref ScanRecord r) => r.Outputs.Switches |= r.Scan == 1 ? OutputSwitches.Power : OutputSwitches.None),
        ["every safe-stop ends without power"] = (Plant.With(FaultKind.StopPressed, 6, 9),
            (ref ScanRecord r) => r.Outputs.Switches |= r.State == RigState.SafeStop && At(r) > 6 ? OutputSwitches.Power : OutputSwitches.None),
        ["a stop is taken in the next scan"] = (Plant.With(FaultKind.InboxFlooded, 6, 7),
            (ref ScanRecord r) => r.State = At(r) is > 6.1 and < 6.2 ? RigState.Hold : r.State),
        ["what cannot be recorded is not run"] = (Plant.With(FaultKind.SinkFails, 6, 7), (ref ScanRecord r) => Drive(ref r, 6.1, 6.3)),
        ["a bench that its operator left"] = (Plant.With(FaultKind.OperatorLeaves, 6, 7), (ref ScanRecord r) => Drive(ref r, 6.1, 6.3)),
        ["what no valid proof of its failsafe"] = (Plant.With(FaultKind.ProofVoided, 6, 7), (ref ScanRecord r) => Drive(ref r, 6.1, 6.4)),
        ["the true speed stays below the limit"] = (Plant.Quiet, (ref ScanRecord r) => Drive(ref r, 5, 9, throttle: 1)),
        ["the motor is really driven only after"] = (Plant.Quiet.Hiding(FaultKind.ControllerRunaway, 1, 14), null),
        ["the contactor is really closed only while"] = (Plant.With(FaultKind.StopPressed, 6, 7).Hiding(FaultKind.ContactorWelded, 1, 14), null),
        ["an open lock means power off"] = (Plant.Quiet,
            (ref ScanRecord r) => r.Outputs.Switches |= r.State == RigState.CoastDown ? OutputSwitches.Unlocked : OutputSwitches.None),
        ["safe-stop is left only by"] = (Plant.Quiet,
            (ref ScanRecord r) => r.ReceiptCount = r.Before == RigState.SafeStop ? (byte)0 : r.ReceiptCount),
        ["a lid that is really open"] = (With(BothWaysGone, FaultKind.LidForced, 7, 9), (ref ScanRecord r) => Drive(ref r, 5, 10)),
        ["a stop that is really pressed"] = (With(BothWaysGone, FaultKind.StopPressed, 7, 9), (ref ScanRecord r) => Drive(ref r, 5, 10)),
        ["a radio that is really lost"] = (With(BothWaysGone, FaultKind.RadioLost, 7, 9).Hiding(FaultKind.StuckPulse, 5, 10),
            (ref ScanRecord r) => r.Outputs.Switches |= At(r) > 5 ? OutputSwitches.Gate | OutputSwitches.Power : OutputSwitches.None),
        ["a motor that is really above its ceiling"] = (Plant.With(FaultKind.MotorHeated, 5.5, 14, size: 1), (ref ScanRecord r) => Drive(ref r, 5, 14)),
        ["every scan takes a way"] = (Plant.Quiet,
            (ref ScanRecord r) => r.Fired = r.State == RigState.Hold && At(r) > 6 && At(r) < 6.01 ? Trigger.Rested : r.Fired),
        [Campaign.OneReceipt] = (Plant.Quiet,
            (ref ScanRecord r) =>
            {
                if (r.ReceiptCount == 1)
                    r.Receipts[r.ReceiptCount++] = r.Receipts[0];
            }),
        [Campaign.Recovery] = (Plant.Quiet, (ref ScanRecord r) => r.State = r.State == RigState.Hold ? RigState.SpinUp : r.State),
    };

    public static TheoryData<string> Promises() => new(Campaign.Promises);

    [Theory]
    [MemberData(nameof(Promises))]
    public void A_defect_that_breaks_a_promise_is_caught(string promise)
    {
        (Scenario scenario, CampaignRun.TamperWith? defect) = Defects.Single(d => promise.StartsWith(d.Key, StringComparison.Ordinal)).Value;
        Caught(promise, scenario, defect);
    }

    [Fact]
    public void A_command_that_is_never_answered_is_caught() => Caught(
        Campaign.OneReceipt, Plant.Quiet, (ref ScanRecord r) => r.ReceiptCount = 0);

    // A speed that reads zero at once is none of the faults behind which nobody can know.
    [Theory]
    [InlineData(FaultKind.StopPressed)]
    [InlineData(FaultKind.TachometerZero)]
    public void A_kernel_that_says_rest_while_the_rotor_truly_turns_is_caught(FaultKind kind) => Caught(
        "safe-stop is left only by the bench's reset at standstill", With(Plant.With(kind, 5.9, 6.2), FaultKind.StopPressed, 5.9, 6),
        (ref ScanRecord r) =>
        {
            if (At(r) is < 6.1 or > 6.105)
                return;
            (r.Before, r.State, r.Fired, r.AtStandstill, r.ReceiptCount) = (RigState.SafeStop, RigState.Idle, Trigger.Reset, true, 1);
            r.Receipts[0] = new Receipt(1_000_000, CommandKind.Reset, CommandSource.Bench, RefusalReason.None);
        });

    // A host that takes any proof for good drives a board whose failsafe nobody has seen to work.
    [Theory]
    [InlineData(FaultKind.ProofAbsent, 0, 9)]
    [InlineData(FaultKind.BoardSwapped, 6, 6.2)]
    [InlineData(FaultKind.RigUnpowered, 6, 6.2)]
    public void A_drive_behind_a_proof_of_something_else_is_caught(FaultKind kind, double from, double to) => Caught(
        "what no valid proof of its failsafe", With(Plant.With(kind, from, to), FaultKind.LidPulled, 5, 9), (ref ScanRecord r) => Drive(ref r, 0.5, 8));

    [Fact]
    public void A_kernel_that_unlocks_under_a_bolt_that_lies_is_caught() => Caught(
        "an open lock means power off and a rotor at rest", Plant.With(FaultKind.BoltLies, 5, 14, size: 0.1),
        (ref ScanRecord r) => r.Outputs.Switches |= r.State == RigState.CoastDown ? OutputSwitches.Unlocked : OutputSwitches.None);

    [Fact]
    public void A_kernel_that_unlocks_only_by_its_own_word_is_caught() => Caught(
        "an open lock means power off and a rotor at rest", Plant.Quiet,
        (ref ScanRecord r) =>
        {
            if (r.State == RigState.CoastDown)
                r.Outputs.Switches = OutputSwitches.Unlocked;
        });

    private static Scenario With(Scenario scenario, FaultKind kind, double from, double to) =>
        scenario with { Faults = [.. scenario.Faults, new PlannedFault(kind, from, to, 0, 0.5)] };

    private static double At(in ScanRecord record) => record.Now.TotalSeconds;

    private static void Drive(ref ScanRecord record, double from, double to, double throttle = 0.3)
    {
        if (At(record) > from && At(record) < to)
            record.Outputs = new OutputImage { Throttle = throttle, Pulse = 1000 + 1000 * throttle, Switches = OutputSwitches.Power };
    }

    private static void Caught(string promise, Scenario scenario, CampaignRun.TamperWith? defect)
    {
        CampaignResult result = new CampaignRun(scenario, defect).Run();
        Assert.Contains(result.Broken, sentence => sentence.StartsWith(promise, StringComparison.Ordinal));
    }
}
