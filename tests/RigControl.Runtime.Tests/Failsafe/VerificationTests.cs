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
        Assert.All(verified.Watch.Results.Where(r => r.Stage == 2), r => Assert.Null(r.PowerGone));
    }

    [Trait("Requirement", "SAF-079")]
    [Fact]
    public void After_a_board_s_start_lid_stop_and_silence_are_seen_again_and_the_power_never_comes_on()
    {
        using Verified verified = Verified.On(new TestRig { Verifies = VerificationScope.AfterRestart });
        Assert.Equal(RunOutcome.Completed, verified.Result.Outcome);
        Assert.Equal(["power-off", "pulse-lid", "pulse-stop", "pulse-silence"], verified.Watch.Results.Select(r => r.Name));
        Assert.All(verified.Watch.Results, r => Assert.True(r.Passed, r.ToString()));
        Assert.DoesNotContain(verified.Record.Scans, s => s.Outputs.Power);
        Assert.Contains(verified.Record.Scans, s => s.Outputs.Drives);
    }
}
