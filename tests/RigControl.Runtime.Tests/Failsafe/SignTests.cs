using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Failsafe;

/// <summary>Each sign of a provocation counts by itself: one that was there before anything was provoked shows nothing, whatever the others show.</summary>
public class SignTests
{
    private static readonly string[] UnderPower = ["over-speed", "stop", "silence", "radio-lost", "power-cut"];

    [Trait("Requirement", "SAF-095")]
    [Fact]
    public void A_current_sensor_that_reads_nothing_does_not_pass_for_a_cut_that_was_seen_in_the_current()
    {
        using Verified verified = Verified.On(With(ChannelNames.BatteryCurrent, "A", (_, _) => 0));
        // Feedback and speed show the cut, so that the run itself goes to its end.
        Assert.Equal(RunOutcome.Completed, verified.Result.Outcome);
        ProvocationResult failed = Assert.Single(verified.Watch.Results, r => !r.Passed);
        Assert.Equal("power-cut", failed.Name);
        Assert.StartsWith("battery.current was below 0.5 A all the time that the article was driven; it shows nothing: look at its sensor", failed.Seen, StringComparison.Ordinal);
        Assert.False(verified.Watch.AllPassed);
    }

    [Trait("Requirement", "SAF-095")]
    [Fact]
    public void A_feedback_that_is_stuck_at_open_does_not_pass_for_a_contactor_that_was_seen_to_open()
    {
        using Verified verified = Verified.On(With(ChannelNames.OutputPower, "1", (_, _) => 0));
        Assert.All(verified.Watch.Results.Where(r => UnderPower.Contains(r.Name)), r =>
        {
            Assert.Equal((false, null), (r.Passed, r.PowerGone));
            Assert.Equal("output.power was below 0.5 before anything was provoked; it shows nothing: look at what reads it", r.Seen);
        });
        // Nothing of stage 2 looks at the power, and the rest under power only at the speed.
        Assert.All(verified.Watch.Results.Where(r => r.Stage == 2 || r.Name == "stop-output-rests"), r => Assert.True(r.Passed, r.ToString()));
    }

    [Trait("Requirement", "SAF-095")]
    [Fact]
    public void A_reading_that_stops_to_tell_shortly_before_shows_nothing_either()
    {
        bool dead = false;
        using Verified verified = Verified.On(With(ChannelNames.OutputPower, "1", (told, now) =>
        {
            dead |= told.Throttle > 0 && told.Power && now > TimeSpan.FromSeconds(1);
            return told.Power && !dead ? 1 : 0;
        }));
        Assert.Contains("output.power was below 0.5 before anything was provoked", verified.Watch.Results.Single(r => r.Name == "over-speed").Seen, StringComparison.Ordinal);
    }

    [Trait("Requirement", "SAF-095")]
    [Fact]
    public void A_level_too_gentle_for_the_sensor_fails_and_says_what_to_do()
    {
        using Verified verified = Verified.On(Turned(0.07, 1200));
        ProvocationResult cut = verified.Watch.Results.Single(r => r.Name == "power-cut");
        Assert.False(cut.Passed);
        Assert.EndsWith("take one that tells so little, or write a higher throttle under verification, if the article is harmless at it", cut.Seen, StringComparison.Ordinal);
    }

    [Trait("Requirement", "SAF-095")]
    [Fact]
    public void A_current_that_settles_below_the_sensor_s_least_passes_with_what_it_does_not_show()
    {
        using Verified verified = Verified.On(Turned(0.15, 3000));
        ProvocationResult cut = verified.Watch.Results.Single(r => r.Name == "power-cut");
        Assert.True(cut.Passed);
        Assert.Equal("battery.current was below 0.5 A before it was cut, and shows only that its sensor works: in the rise it read more", cut.Reserve);
        Assert.All(verified.Watch.Results.Where(r => r.Name != "power-cut"), r => Assert.Null(r.Reserve));
    }

    [Fact]
    public void A_current_that_flows_up_to_the_cut_shows_it()
    {
        using Verified verified = Verified.On(Turned(0.45, 5900));
        ProvocationResult cut = verified.Watch.Results.Single(r => r.Name == "power-cut");
        Assert.Equal((true, null), (cut.Passed, cut.Reserve));
    }

    [Trait("Requirement", "SAF-095")]
    [Fact]
    public void A_contactor_that_opens_late_fails_every_stop_that_takes_the_power()
    {
        TimeSpan? since = null;
        using Verified verified = Verified.On(With(ChannelNames.OutputPower, "1", (told, now) =>
        {
            since = told.Power ? null : since ?? now;
            return told.Power || now - since < TimeSpan.FromSeconds(0.4) ? 1 : 0;
        }));
        Assert.Equal(UnderPower, verified.Watch.Results.Where(r => !r.Passed).Select(r => r.Name));
        Assert.Equal(RunOutcome.Completed, verified.Result.Outcome);
        Assert.All(verified.Watch.Results.Where(r => !r.Passed), r => Assert.InRange(r.PowerGone!.Value, 0.39, 0.52));
        Assert.All(verified.Watch.Results.Where(r => !r.Passed), r => Assert.Equal(0.2, r.PowerAllowed));
        ProvocationResult stop = verified.Watch.Results.Single(r => r.Name == "stop");
        Assert.Matches("^seen, but the power was gone only after 4[0-9]{2} ms; 200 ms are allowed: look at the contactor and its coil circuit$", stop.Seen);
    }

    [Trait("Requirement", "SAF-095")]
    [Fact]
    public void A_contact_that_opens_and_closes_again_counts_from_where_it_stays_open()
    {
        TimeSpan? since = null;
        using Verified verified = Verified.On(With(ChannelNames.OutputPower, "1", (told, now) =>
        {
            since = told.Power ? null : since ?? now;
            return told.Power || (now - since > TimeSpan.FromSeconds(0.03) && now - since < TimeSpan.FromSeconds(0.4)) ? 1 : 0;
        }));
        ProvocationResult stop = verified.Watch.Results.Single(r => r.Name == "stop");
        Assert.False(stop.Passed);
        Assert.InRange(stop.PowerGone!.Value, 0.39, 0.52);
    }

    [Trait("Requirement", "SAF-095")]
    [Theory]
    [InlineData("", 200)]
    [InlineData("0.05", 250)]
    [InlineData("0.3 0.05", 250)]
    public void The_power_has_the_board_s_own_time_and_what_the_rig_file_gives_the_contactor(string seconds, double milliseconds)
    {
        RigDefinition rig = new TestRig().Documents.Rig;
        IEnumerable<double> within = seconds.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(w => double.Parse(w, System.Globalization.CultureInfo.InvariantCulture));
        InterlockDefinition[] follow = [.. within.Select((w, i) => new InterlockDefinition($"power-{i}", "power-follows", new Dictionary<string, object> { ["within"] = w }, null, null, InterlockScope.EveryStep))];
        Assert.Equal(milliseconds, VerificationParts.PowerAllowed(rig with { Interlocks = [.. rig.Interlocks, .. follow] }).TotalMilliseconds);
    }

    [Fact]
    public void A_contactor_that_is_followed_in_some_steps_only_is_given_no_time_by_that()
    {
        RigDefinition rig = new TestRig().Documents.Rig;
        InterlockDefinition some = new("power", "power-follows", new Dictionary<string, object> { ["within"] = 3.0 }, null, null, InterlockScope.NamedSteps);
        Assert.Equal(200, VerificationParts.PowerAllowed(rig with { Interlocks = [.. rig.Interlocks, some] }).TotalMilliseconds);
    }

    private static TestRig Turned(double throttle, double speed) =>
        new() { Verifies = VerificationScope.Whole, Article = TestRig.SmallDisc with { Verification = new VerificationCeiling(throttle, speed) } };

    // The bench's own reading goes elsewhere, and another device answers in its place. Like a board it stops when it has not been told anything for 100 ms.
    private static TestRig With(string channel, string unit, Func<OutputImage, TimeSpan, double> reads)
    {
        ToyDevice? toy = null;
        (int Count, TimeSpan At) heard = default;
        toy = new ToyDevice(channel)
        {
            Unit = unit,
            OnRead = (now, writer) =>
            {
                if (toy!.Applies != heard.Count)
                    heard = (toy.Applies, now);
                writer.Write(0, now, reads(now - heard.At < TimeSpan.FromSeconds(0.1) ? toy.Told : default, now));
            },
        };
        return new TestRig
        {
            Verifies = VerificationScope.Whole, Devices = new() { ["other"] = _ => toy }, Renamed = new() { ["bench"] = new() { [channel] = "spare.reading" } },
        };
    }
}
