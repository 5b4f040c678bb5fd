using RigControl.Analysis.Commissioning;

namespace RigControl.Analysis.Tests.Commissioning;

/// <summary>What a person marked, saw and read on a second instrument.</summary>
public class SeenAndHeardTests
{
    [Fact]
    public void The_last_beep_and_a_second_more_is_the_arming_time()
    {
        Finding found = new Bare { Marks = [2.1, 3.42], ArmingTime = 2 }.Say("arming-time");
        // Power came at 1 s: heard after 2.42 s, and a second more, rounded up.
        Assert.Equal((Verdict.Change, "3.5 s"), (found.Verdict, found.Write));
    }

    [Fact]
    public void An_arming_time_that_leaves_a_second_holds() =>
        Assert.Equal(Verdict.Holds, new Bare { Marks = [2.1], ArmingTime = 2.1 }.Say("arming-time").Verdict);

    [Fact]
    public void A_marker_after_the_output_rose_or_before_the_power_is_no_beep() =>
        Assert.Equal(Verdict.Unknown, new Bare { Marks = [0.5, 12] }.Say("arming-time").Verdict);

    [Theory]
    [InlineData("passed", Verdict.Holds)]
    [InlineData("failed", Verdict.Wrong)]
    [InlineData(null, Verdict.Unknown)]
    public void The_sense_of_rotation_is_what_somebody_saw(string? answer, Verdict verdict) =>
        Assert.Equal(verdict, Answered(RotorOffRun.Sense, answer).Say("sense of rotation").Verdict);

    [Theory]
    [InlineData("ran-down", false, Verdict.Holds, null)]
    [InlineData("ran-down", true, Verdict.Change, "no")]
    [InlineData("stopped-at-once", false, Verdict.Change, "yes")]
    [InlineData("not-seen", false, Verdict.Unknown, null)]
    public void Braking_is_what_somebody_saw_against_what_is_declared(string answer, bool declared, Verdict verdict, string? write)
    {
        Finding found = (Answered(RotorOffRun.AtStop, answer) with { Brakes = declared }).Say("brakes-at-stop");
        Assert.Equal((verdict, write), (found.Verdict, found.Write));
    }

    [Theory]
    [InlineData("12000", Verdict.Holds, null)]
    [InlineData("11700", Verdict.Holds, null)]
    [InlineData("6000", Verdict.Change, "2")]
    [InlineData("1715", Verdict.Change, "7")]
    [InlineData("24000", Verdict.Wrong, null)]
    [InlineData("9000", Verdict.Wrong, null)]
    [InlineData("0", Verdict.Unknown, null)]
    public void The_number_of_marks_is_the_ratio_to_a_second_instrument(string second, Verdict verdict, string? write)
    {
        Finding found = Answered(RotorOffRun.SecondSpeed, second).Say("pulses-per-revolution");
        Assert.Equal((verdict, write), (found.Verdict, found.Write));
    }

    [Fact]
    public void Marks_are_never_raised_because_of_a_speed_that_is_too_low() =>
        Assert.Contains("never write a number above that of the marks", Answered(RotorOffRun.SecondSpeed, "24000").Say("pulses-per-revolution").Says, StringComparison.Ordinal);

    [Theory]
    [InlineData(24000, true)]
    [InlineData(12000, false)]
    public void Without_a_second_instrument_a_speed_beyond_the_motor_s_is_noticed(double top, bool noticed)
    {
        // 1000 rpm/V at 12.5 V: 12500 rpm at most; derived.
        Finding found = new Bare { Top = top }.Say("pulses-per-revolution");
        Assert.Equal((Verdict.Unknown, noticed), (found.Verdict, found.Says.Contains("more than the 12500 rpm", StringComparison.Ordinal)));
    }

    private static Bare Answered(string question, string? answer) => new() { Answers = answer is null ? [] : new() { [question] = answer } };
}
