using RigControl.Analysis.Commissioning;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Tests.Commissioning;

/// <summary>The ends of the range, the stop and the direction, from a ramp whose truth is known.</summary>
public class RangeFindingsTests
{
    [Fact]
    public void A_declared_range_that_is_the_true_one_holds()
    {
        Bare bare = new() { Repeats = 2, Furthest = 2000, Ends = 900, Maximum = 1900, Scatter = 20 };
        Assert.All(new[] { "stop", "direction", "maximum" }, key => Assert.Equal(Verdict.Holds, bare.Say(key).Verdict));
    }

    [Theory]
    [InlineData(700)]
    [InlineData(850)]
    [InlineData(930)]
    public void An_end_before_the_declared_one_is_found_and_to_be_written(double ends)
    {
        Finding found = new Bare { Ends = ends, Scatter = 30, Repeats = 2 }.Say("maximum");
        Assert.Equal(Verdict.Change, found.Verdict);
        Assert.Equal(1000 + ends, double.Parse(found.Write!.Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture), ends * 0.01);
        Assert.EndsWith(" us", found.Write, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1600, 1000)]
    [InlineData(1500, 520)]
    public void An_end_beyond_what_was_tried_is_never_guessed(double furthest, double ends)
    {
        Finding found = new Bare { Furthest = furthest, Ends = ends, Scatter = 20 }.Say("maximum");
        Assert.Equal((Verdict.Unknown, null), (found.Verdict, found.Write));
        Assert.Contains("the end is there or beyond", found.Says, StringComparison.Ordinal);
    }

    [Fact]
    public void An_end_that_only_one_of_two_runs_shows_is_no_end() =>
        Assert.Equal(Verdict.Unknown, (new Bare { Ends = 995, Repeats = 2 }).Say("maximum").Verdict);

    [Fact]
    public void The_pulse_at_which_it_begins_is_told_with_its_distance_from_stop()
    {
        string says = new Bare { Begins = 68 }.Say("stop").Says;
        Assert.Matches(@"stood at 1000 us and began to turn at 10(68|69) us \(one run: how well it repeats is unknown\), (68|69) us away", says);
    }

    [Fact]
    public void A_shaft_that_turns_at_the_stop_pulse_is_driven_by_it()
    {
        Finding found = new Bare { Creep = 400 }.Say("stop");
        Assert.Equal(Verdict.Wrong, found.Verdict);
        Assert.Contains("turned at 400 rpm before anything was asked for", found.Says, StringComparison.Ordinal);
    }

    [Fact]
    public void A_shaft_that_never_turns_leaves_every_cause_open()
    {
        Bare dead = new() { Top = 0 };
        Assert.Equal(Verdict.Wrong, dead.Say("direction").Verdict);
        Assert.Equal(Verdict.Unknown, dead.Say("stop").Verdict);
        Assert.Equal(Verdict.Unknown, dead.Say("maximum").Verdict);
    }

    [Fact]
    public void A_controller_that_takes_shorter_pulses_for_more_has_its_far_end_at_the_minimum()
    {
        Bare reversed = new() { Stop = 2000, Furthest = 1000, Direction = PulseDirection.Shorter, Minimum = 1000, Maximum = 2000, Ends = 800, Repeats = 2 };
        Finding found = reversed.Say("minimum");
        Assert.Equal(Verdict.Change, found.Verdict);
        Assert.Equal(1200, double.Parse(found.Write!.Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture), 8.0);
    }
}
