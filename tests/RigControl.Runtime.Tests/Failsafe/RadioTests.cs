using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Failsafe;

/// <summary>The radio in a verification: lost while its stick drives, and back with the stick open.</summary>
public class RadioTests
{
    private static readonly ControllerProfile OneWay = TestRig.SmallDisc.Controller;

    public static TheoryData<ControllerProfile> Controllers() =>
    [
        OneWay,
        OneWay with { Direction = PulseDirection.Shorter, StopPulse = 2000 },
        OneWay with { Mode = ControllerMode.TwoWay, StopPulse = 1500 },
        OneWay with { Mode = ControllerMode.TwoWay, StopPulse = 1500, Direction = PulseDirection.Shorter },
    ];

    [Trait("Requirement", "SAF-090")]
    [Theory]
    [MemberData(nameof(Controllers))]
    public void A_healthy_radio_is_lost_and_returns_whatever_the_controller_s_pulses(ControllerProfile controller)
    {
        using Verified verified = Verified.On(Rig(article: TestRig.SmallDisc with { Controller = controller }));
        Assert.Equal(RunOutcome.Completed, verified.Result.Outcome);
        Assert.Equal(
            ["pulse-radio-ready", "pulse-radio", "pulse-radio-back", "pulse-stick-at-stop"],
            verified.Watch.Results.Where(r => r.Name.StartsWith("pulse-radio", StringComparison.Ordinal) || r.Name == "pulse-stick-at-stop").Select(r => r.Name));
        Assert.Equal(
            ["radio-ready", "radio-lost", "radio-back", "radio-returns", "stick-at-stop"],
            verified.Watch.Results.Where(r => r.Stage == 3 && (r.Name.StartsWith("radio", StringComparison.Ordinal) || r.Name.StartsWith("stick", StringComparison.Ordinal))).Select(r => r.Name));
        Assert.All(verified.Watch.Results, r => Assert.True(r.Passed, r.ToString()));
    }

    [Fact]
    public void The_loss_is_measured_and_nothing_of_the_radio_rests_on_the_operator_s_word()
    {
        using Verified verified = Verified.On(Rig());
        ProvocationResult lost = verified.Watch.Results.Single(r => r.Name == "radio-lost");
        Assert.InRange(lost.Reaction!.Value, 0, lost.Allowed!.Value);
        Assert.Equal("receiver and every sign", lost.Seen);
        Assert.All(verified.Watch.Results.Where(r => r.Name.StartsWith("radio", StringComparison.Ordinal)), r => Assert.False(r.OnWord));
    }

    [Fact]
    public void The_stick_drives_through_the_gate_alone_and_only_until_the_radio_is_lost()
    {
        using Verified verified = Verified.On(Rig());
        TimeSpan returned = verified.Entered("its stick still open");
        // Once with the power off and once with it on, each from its gate to the loss.
        TimeSpan[] opened = verified.AllOf(EventNames.StepEntered, "gate"), lost = verified.AllOf(EventNames.Trip, "receiver");
        for (int i = 0; i < 2; i++)
        {
            ScanRecord[] open = [.. verified.Record.Scans.Where(s => s.Outputs.Gate && s.Outputs.Power == (i == 1))];
            Assert.NotEmpty(open);
            Assert.All(open, s => Assert.InRange(s.Now, opened[i], lost[i]));
            Assert.All(open, s => Assert.Equal(0, s.Outputs.Throttle));
        }

        Assert.All(
            verified.Record.Scans.Where(s => s.Now >= returned && s.Now < verified.Entered("Put the stick back")),
            s => Assert.Equal((false, false), (s.Outputs.Power, s.Outputs.Drives)));
    }

    [Fact]
    public void Where_no_device_reads_the_receiver_nothing_is_said_of_it()
    {
        using Verified verified = Verified.On(Rig(renamed: "receiver.pulse"));
        Assert.Equal(RunOutcome.Completed, verified.Result.Outcome);
        Assert.Equal(["radio-off", "radio-on"], verified.Watch.Results.Where(r => r.Name.StartsWith("radio", StringComparison.Ordinal)).Select(r => r.Name));
    }

    [Fact]
    public void Where_only_the_receiver_s_pulse_is_read_that_is_enough()
    {
        using Verified verified = Verified.On(Rig(renamed: "radio.link"));
        Assert.Equal(RunOutcome.Completed, verified.Result.Outcome);
        Assert.Equal(["radio-ready", "radio-lost", "radio-back", "radio-returns"], verified.Watch.Results.Where(r => r.Name.StartsWith("radio", StringComparison.Ordinal)).Select(r => r.Name));
    }

    private static TestRig Rig(string? renamed = null, Article? article = null) => new()
    {
        Verifies = VerificationScope.Whole, Article = article ?? TestRig.SmallDisc,
        Renamed = renamed is null ? [] : new() { ["bench"] = new() { [renamed] = "spare.reading" } },
    };
}
