using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Campaigns;

/// <summary>One promise, checked in every scan by code that shares nothing with the kernel.</summary>
internal abstract class Checker
{
    /// <summary>The promise, as a sentence.</summary>
    public abstract string Promise { get; }

    /// <summary>How it was broken, or null.</summary>
    public string? Broken { get; private set; }

    public void See(in Observation seen)
    {
        if (Broken is null && !Holds(seen))
            Broken = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Promise}: broken at {seen.Time:0.000} s in {seen.Record.State}");
    }

    protected abstract bool Holds(in Observation seen);
}

internal sealed class NeverDrivenTripped : Checker
{
    public override string Promise => "nothing is driven with an interlock tripped or Bad";

    protected override bool Holds(in Observation seen)
    {
        OutputImage outputs = seen.Record.Outputs;
        for (int i = 0; i < seen.Record.InterlockCount; i++)
        {
            DemandAction action = seen.Record.Demands[i].Action;
            if (outputs.Throttle != 0 && action <= DemandAction.StopOutput)
                return false;
            if (outputs.Power && action == DemandAction.CutPower)
                return false;
        }

        return true;
    }
}

internal sealed class DemandNeverRisesAfterTrip : Checker
{
    private double _after = double.NaN;

    public override string Promise => "after a trip the demand never rises without a new start";

    protected override bool Holds(in Observation seen)
    {
        if (seen.Record.State == RigState.SafeStop || seen.Record.NewlyLatched != 0)
            _after = 0;
        for (int i = 0; i < seen.Record.ReceiptCount; i++)
        {
            if (seen.Record.Receipts[i] is { Kind: CommandKind.Start, Refusal: RefusalReason.None })
                _after = double.NaN;
        }

        return double.IsNaN(_after) || seen.Record.Outputs.Throttle == 0;
    }
}

internal sealed class OutputOnlyAfterThreeActs : Checker
{
    private int _acts;

    public override string Promise => "no output without reset, arm and start from the bench, in this order";

    protected override bool Holds(in Observation seen)
    {
        if (seen.Record.State == RigState.SafeStop)
            _acts = 0;
        for (int i = 0; i < seen.Record.ReceiptCount; i++)
        {
            Receipt receipt = seen.Record.Receipts[i];
            if (receipt.Refusal != RefusalReason.None || receipt.Source != CommandSource.Bench)
                continue;
            _acts = (receipt.Kind, _acts) switch
            {
                (CommandKind.Reset, _) => 1,
                (CommandKind.Arm, 1) => 2,
                (CommandKind.Start, 2) => 3,
                _ => _acts,
            };
        }

        return seen.Record.Outputs.Throttle == 0 || _acts == 3;
    }
}

internal sealed class WarningBeforeEveryRise : Checker
{
    private double _warned;
    private double _last = double.NaN;

    public override string Promise => "three seconds of warning stand before every rise from stop";

    protected override bool Holds(in Observation seen)
    {
        double step = double.IsNaN(_last) ? 0 : Math.Max(0, seen.Time - _last);
        _last = seen.Time;
        if (seen.Record.Outputs.Warning)
            _warned += step;
        else if (seen.Record.Outputs.Throttle == 0)
            _warned = seen.Record.State is RigState.SpinUp ? _warned : 0;
        // One scan of grace: the first scan of the warning shows it without time having passed.
        return seen.Record.Outputs.Throttle == 0 || _warned >= 3 - 2 * CampaignRig.Period.TotalSeconds;
    }
}

internal sealed class SpeedStaysBounded : Checker
{
    // Two scans, the contactor's opening and the tachometer's own period at the limit.
    private const double Reaction = 0.010 + 0.012 + 0.012;

    public override string Promise => "the true speed stays below the limit plus what acceleration times reaction adds";

    protected override bool Holds(in Observation seen)
    {
        // A second fault that blinds the sensor or welds the contactor is what the second way to stop is for; see SAFETY.md.
        if (seen.Scenario.Has(
            FaultKind.ContactorWelded, FaultKind.ControllerShorted, FaultKind.SlowActuators, FaultKind.ClockStep, FaultKind.HostRestart,
            FaultKind.TachometerSilent, FaultKind.TachometerHalved, FaultKind.SensorStuck, FaultKind.SensorDrifting, FaultKind.SensorLying,
            FaultKind.SensorLate))
            return true;
        double limit = CampaignRig.SpeedLimit * 2 * Math.PI / 60 + CampaignRig.GreatestAcceleration * Reaction;
        return Math.Abs(seen.Truth.Speed) <= limit;
    }
}

internal sealed class UnlockedMeansSafe : Checker
{
    public override string Promise => "an open lock means power off and a rotor at rest";

    protected override bool Holds(in Observation seen)
    {
        if (seen.Record.Outputs.Unlocked && (seen.Record.State != RigState.Idle || seen.Record.Outputs.Power || !seen.Record.AtStandstill))
            return false;
        // A lid that is forced past its bolt is not the lock's doing; that the drive ends is another promise.
        if (seen.Truth.BoltHome || seen.Scenario.Has(
            FaultKind.LidForced, FaultKind.ContactorWelded, FaultKind.TachometerSilent, FaultKind.SensorStuck, FaultKind.SensorLying, FaultKind.SensorDrifting,
            FaultKind.SensorLate, FaultKind.HostRestart, FaultKind.ClockStep, FaultKind.BoltStuck, FaultKind.SlowActuators))
            return true;
        // The tachometer that misses every other mark reads half.
        double slow = 2 * CampaignRig.StandstillSpeed * 2 * Math.PI / 60;
        return !seen.Truth.ContactorClosed && Math.Abs(seen.Truth.Speed) <= slow;
    }
}

internal sealed class SafeStopLeftOnlyByReset : Checker
{
    public override string Promise => "safe-stop is left only by the bench's reset at standstill";

    protected override bool Holds(in Observation seen)
    {
        if (seen.Record.Before != RigState.SafeStop || seen.Record.Fired is Trigger.None || seen.Record.Fired is Trigger.Trip)
            return true;
        bool reset = false;
        for (int i = 0; i < seen.Record.ReceiptCount; i++)
            reset |= seen.Record.Receipts[i] is { Kind: CommandKind.Reset, Source: CommandSource.Bench, Refusal: RefusalReason.None };
        return reset && seen.Record.AtStandstill && seen.Record.Fired == Trigger.Reset;
    }
}

internal sealed class RestartLandsInSafeStop : Checker
{
    public override string Promise => "a host that starts is in safe-stop with output and power off";

    protected override bool Holds(in Observation seen) =>
        !seen.FirstOfSession || seen.Record is { State: RigState.SafeStop, Outputs: { Throttle: 0, Power: false, Unlocked: false } };
}

internal sealed class OpenLidEndsDrive : Checker
{
    // Two scans, the contactor's opening, and a scan of grace for the moment within a scan.
    private const double Allowed = 0.010 + 0.012 + 0.005;
    private double _openSince = double.NaN;

    public override string Promise => "a lid that is really open ends the drive within the reaction time";

    protected override bool Holds(in Observation seen)
    {
        if (seen.Truth.LidClosed)
            _openSince = double.NaN;
        else if (double.IsNaN(_openSince))
            _openSince = seen.Time;
        foreach (PlannedFault fault in seen.Scenario.Faults)
        {
            if (fault.Kind is not (FaultKind.LidForced or FaultKind.StopPressed or FaultKind.RadioLost or FaultKind.MotorHeated or FaultKind.None
                or FaultKind.FailingBearing or FaultKind.StuckPulse or FaultKind.ControllerRunaway or FaultKind.ContactorWelded))
                return true;
        }

        // Two ways to stop bear one failure: with the signal's way and the power's way both gone nothing is promised.
        if (seen.Scenario.Has(FaultKind.ContactorWelded) && seen.Scenario.Has(FaultKind.StuckPulse, FaultKind.ControllerRunaway))
            return true;
        return double.IsNaN(_openSince) || seen.Time - _openSince <= Allowed || !seen.Truth.Driven;
    }
}
