using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Failsafe;

/// <summary>A bench that is broken does not pass: each fault is found by the provocation that is there for it, and no proof comes of it.</summary>
public class FaultyBenchTests
{
    private const string FromTheBeginning = "";

    [Trait("Requirement", "SAF-081")]
    [Theory]
    [InlineData("contactor-welded-at", FromTheBeginning, "over-speed", "was not answered as it must be")]
    [InlineData("contactor-welded-at", "stop", "stop", "was not answered as it must be")]
    [InlineData("contactor-welded-at", "silence", "silence", "was not answered as it must be")]
    [InlineData("contactor-welded-at", "power-cut", "power-cut", "was not answered as it must be")]
    [InlineData("contactor-welded-at", "pulses-cease", "power-off-after", "did not end within its time")]
    [InlineData("controller-shorted-at", FromTheBeginning, "stop-output-rests", "not reached: the rotor went above the speed that a verification may reach")]
    [InlineData("controller-shorted-at", "stop-output-rests", "stop-output-rests", "the rotor went above the speed that a verification may reach")]
    [InlineData("controller-runs-away-at", FromTheBeginning, "stop-output-rests", "not reached: the rotor went above the speed that a verification may reach")]
    [InlineData("controller-runs-away-at", "power-cut", "power-cut", "the rotor went above the speed that a verification may reach")]
    [InlineData("pulse-stuck-at", FromTheBeginning, "over-speed", "not reached: the step did not end within its time")]
    [InlineData("pulse-stuck-at", "stop-output-rests", "stop-output-rests", "the rotor went above the speed that a verification may reach")]
    [InlineData("receiver-holds-at", FromTheBeginning, "pulse-radio", "the step did not end within its time")]
    [InlineData("receiver-holds-at", "stop", "radio-lost", "the step did not end within its time")]
    [InlineData("contactor-welded-at", "radio-lost", "radio-lost", "was not answered as it must be")]
    [InlineData("controller-runs-away-at", "radio-lost", "radio-lost", "the rotor went above the speed that a verification may reach")]
    [InlineData("gate-stuck-at", "radio-lost", "radio-returns", "was not answered as it must be")]
    public void A_broken_bench_fails_at_the_provocation_that_is_there_for_its_fault(string fault, string during, string failing, string sentence)
    {
        using Verified verified = Verified.On(Broken((fault, TimeOf(during))));
        AssertFailed(verified, failing, sentence);
    }

    [Trait("Requirement", "SAF-081")]
    [Fact]
    public void A_line_that_sticks_at_the_very_pulse_it_last_carried_is_found_when_the_pulses_cease()
    {
        using Verified verified = Verified.On(Broken(("pulse-stuck-at", TimeOf("pulses-cease")), ("stuck-pulse", 1150)));
        AssertFailed(verified, "pulses-cease", "was not answered as it must be");
    }

    [Trait("Requirement", "SAF-081")]
    [Fact]
    public void Whatever_breaks_the_output_rests_and_the_rig_stays_in_safe_stop_afterwards()
    {
        foreach (string fault in new[] { "contactor-welded-at", "controller-shorted-at", "controller-runs-away-at", "pulse-stuck-at" })
        {
            using Verified verified = Verified.On(Broken((fault, TimeOf("stop"))));
            Assert.Equal(RunOutcome.SafeStop, verified.Result.Outcome);
            Assert.Equal(nameof(RigState.SafeStop), verified.Events.Last(e => e.Name == EventNames.StateEntered).Subject);
        }
    }

    // Everything before the fault has passed, so that it is this provocation that found it; nothing after it was tried.
    private static void AssertFailed(Verified verified, string failing, string sentence)
    {
        Assert.NotEqual(RunOutcome.Completed, verified.Result.Outcome);
        Assert.False(verified.Watch.AllPassed);
        ProvocationResult[] failed = [.. verified.Watch.Results.SkipWhile(r => r.Passed)];
        Assert.Equal(failing, failed[0].Name);
        Assert.Contains(sentence, failed[0].Seen);
        Assert.All(failed, r => Assert.False(r.Passed, r.ToString()));
    }

    private static TestRig Broken(params (string Option, double Value)[] options) =>
        new() { Verifies = VerificationScope.Whole, Bench = options.ToDictionary(o => o.Option, o => (object)o.Value) };

    // On a bench in order, so that the fault falls into the step that is meant; in lock-step the times are the same every time.
    private static double TimeOf(string step)
    {
        if (step.Length == 0)
            return 0.001;
        using Verified healthy = Verified.On(Broken());
        return healthy.Events.First(e => e.Name == EventNames.StepEntered && e.Text.Contains($"provoke {step},", StringComparison.Ordinal)).At.TotalSeconds;
    }
}
