using RigControl.Kernel;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Failsafe;

/// <summary>The verification of the failsafe, played by a script on the simulated bench.</summary>
public class VerificationTests(ITestOutputHelper output)
{
    [Trait("Requirement", "SAF-078")]
    [Fact]
    public void A_healthy_bench_passes_every_provocation()
    {
        using Verified verified = Verified.On(new TestRig { Verifies = VerificationScope.Whole });
        foreach (RigEvent e in verified.Events)
            output.WriteLine($"{e.At.TotalSeconds:0.000} {e.Name} {e.Text}");
        foreach (ProvocationResult r in verified.Watch.Results)
            output.WriteLine(r.ToString());
        Assert.Equal(RunOutcome.Completed, verified.Result.Outcome);
        Assert.All(verified.Watch.Results, r => Assert.True(r.Passed, r.ToString()));
    }

    [Fact]
    public void Somebody_who_takes_a_second_for_every_act_is_through_in_three_minutes()
    {
        using Verified verified = Verified.On(new TestRig { Verifies = VerificationScope.Whole }, TimeSpan.FromSeconds(1));
        Assert.Equal(RunOutcome.Completed, verified.Result.Outcome);
        TimeSpan took = verified.Events[^1].At;
        output.WriteLine($"{took.TotalSeconds:0.0} s of the rig's time");
        Assert.InRange(took, TimeSpan.Zero, TimeSpan.FromMinutes(3));
    }

    // What bounds a runaway is the power that goes, not the pulse: how long that took is told of every provocation under power.
    [Trait("Requirement", "SAF-082")]
    [Fact]
    public void The_time_until_the_power_was_gone_is_measured_wherever_there_was_power()
    {
        using Verified verified = Verified.On(new TestRig { Verifies = VerificationScope.Whole });
        ProvocationResult[] turning = [.. verified.Watch.Results.Where(r => r is { Stage: 3, Reaction: not null } && r.Name != "pulses-cease")];
        Assert.Contains(turning, r => r.Name == "over-speed");
        // A contactor takes its time to open; the pulse does not.
        Assert.All(turning, r => Assert.InRange(r.PowerGone!.Value, 0.005, 0.2));
        // Where it was never on, or is to stay on, nothing went.
        Assert.All(verified.Watch.Results.Where(r => r.Stage == 2 || r.Name == "pulses-cease"), r => Assert.Equal((null, null), (r.PowerGone, r.PowerAllowed)));
    }

    [Trait("Requirement", "SAF-079")]
    [Trait("Requirement", "SAF-096")]
    [Fact]
    public void After_a_board_s_start_lid_stop_and_silence_are_seen_again_and_the_power_never_comes_on()
    {
        using Verified verified = Verified.On(new TestRig { Verifies = VerificationScope.AfterRestart });
        Assert.Equal(RunOutcome.Completed, verified.Result.Outcome);
        Assert.Equal(["power-off", "pack-disconnected", "pulse-lid", "pulse-stop", "pulse-silence"], verified.Watch.Results.Select(r => r.Name));
        Assert.All(verified.Watch.Results, r => Assert.True(r.Passed, r.ToString()));
        Assert.Equal(["pack-disconnected"], verified.Watch.Results.Where(r => r.OnWord).Select(r => r.Name));
        Assert.DoesNotContain(verified.Record.Scans, s => s.Outputs.Power);
        Assert.Contains(verified.Record.Scans, s => s.Outputs.Drives);
    }

    [Trait("Requirement", "SAF-096")]
    [Fact]
    public void Without_the_word_that_the_pack_is_off_no_pulse_is_made_and_nothing_is_proven()
    {
        using AssembledRig rig = new TestRig { Verifies = VerificationScope.AfterRestart }.Assemble(confirm: false);
        VerificationWatch watch = new(rig.Configuration, rig.Documents.Rig);
        MemoryRecorder record = new();
        using RunSession session = new(rig, record, new SaysAnythingElse(new ScriptedVerifier(rig), rig.Configuration), Pace.Max, [], _ => { }, watch);
        Assert.Equal(RunOutcome.Refused, session.Run().Outcome);
        Assert.Equal((RigState.SafeStop, TripCause.Deadline), (record.Scans[^1].State, record.Scans[^1].Causes));
        Assert.DoesNotContain(record.Scans, s => s.Outputs.Drives || s.Outputs.Power);
        Assert.Contains(record.Scans, s => s.ReceiptCount > 0 && s.Receipts[0].Refusal == RefusalReason.NoSuchAnswer);
        Assert.Equal(["power-off"], watch.Results.Where(r => r.Passed).Select(r => r.Name));
    }

    [Fact]
    public void The_lid_is_opened_in_the_first_two_stages_only_and_never_with_the_power_on()
    {
        HandMove[] opening = [HandMove.OpenLid, HandMove.UnplugLid];
        using AssembledRig rig = new TestRig { Verifies = VerificationScope.Whole }.Assemble(confirm: false);
        Step[] steps = [.. rig.Documents.Procedure.Steps];
        int[] opens = [.. Enumerable.Range(0, steps.Length).Where(i => steps[i].Hand is { } hand && opening.Contains(hand.Act))];
        Assert.Equal(["lid-unplugged", "lid-opened", "pulse-lid"], opens.Select(i => steps[i].Provocation?.Name ?? steps[i].Written));
        int powered = Array.FindIndex(steps, s => s is { Kind: StepKind.Arm, Unpowered: false });
        Assert.All(opens, i => Assert.True(i < powered));
        using Verified verified = Verified.On(new TestRig { Verifies = VerificationScope.Whole });
        Assert.All(verified.Record.Scans.Where(s => s.Step < powered), s => Assert.False(s.Outputs.Power));
        Assert.Contains(verified.Record.Scans, s => s.Outputs.Power);
    }

    // Does everything but say that it is off.
    private sealed class SaysAnythingElse(IOperator other, Configuration configuration) : IOperator
    {
        private bool _said;

        public string Name => other.Name;

        public bool HasGivenUp => false;

        public void See(in ScanRecord record, CommandInbox inbox)
        {
            if (configuration.StepAt(record.Step).Kind != StepKind.Ask)
                other.See(record, inbox);
            else if (!_said && record is { State: RigState.Idle, Before: RigState.Idle })
                _said = inbox.Post(CommandKind.Answer, CommandSource.Bench, 1) > 0;
        }
    }
}
