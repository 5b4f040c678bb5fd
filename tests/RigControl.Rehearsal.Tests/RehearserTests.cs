using RigControl.Analysis.Figures;
using RigControl.Model.Rig;
using RigControl.Physics;
using RigControl.Rehearsal.Bench;
using RigControl.Rehearsal.Results;
using RigControl.Rehearsal.Running;

namespace RigControl.Rehearsal.Tests;

public class RehearserTests
{
    private static PredictedFigure Figure(RehearsalResult result, string name) => result.Figures.Single(f => f.Name == name);

    private static readonly Spread Certain = new()
    {
        Inertia = 0, SpeedConstant = 0, WindingResistance = 0, NoLoadCurrent = 0, Capacity = 0, PackResistance = 0, Drag = 0, Windage = 0, Heat = 0, Ambient = 0,
    };

    [Fact]
    public void A_run_that_nothing_stands_against_is_predicted_with_its_spread()
    {
        RehearsalResult result = Rehearser.Rehearse(Workshop.Plan(), 40, seed: 1);
        Assert.Equal((40, 1.0), (result.Samples, result.Completed));
        Assert.Empty(result.Refusals);
        PredictedFigure peak = Figure(result, "peak-speed");
        Assert.InRange(peak.Median!.Value, 5000, 6500);
        Assert.InRange(peak.Interval95!.Value.High - peak.Interval95.Value.Low, 100, 1500);
        Assert.InRange(result.Seconds, 10, 40);
    }

    /// <summary>The rig's own ceiling is the limit, as in a run.</summary>
    [Fact]
    public void The_time_and_current_to_a_rig_s_ceiling_are_predicted_and_without_one_there_is_none()
    {
        InterlockDefinition ceiling = new("motor", "temperature-ceiling", new Dictionary<string, object> { ["channel"] = "motor.temperature", ["ceiling"] = 60.0 }, null, null, InterlockScope.EveryStep);
        PredictedFigure current = Heat(Workshop.Rig with { Interlocks = [ceiling] }), none = Heat(Workshop.Rig);
        Assert.True(current.Median > 0, "no current was predicted");
        Assert.Null(none.Median);

        static PredictedFigure Heat(RigDefinition rig) => Rehearser.Rehearse(Workshop.Heating(rig), 6, seed: 4).Figures.Single(f => f.Name == "continuous-current" && f.Of == "motor.temperature");
    }

    [Fact]
    public void A_figure_that_is_asked_at_a_time_is_predicted_for_it()
    {
        RehearsalPlan plan = Workshop.Asking("speed-after", "peak-speed").At(new AskedAt { After = 1 });
        RehearsalResult result = Rehearser.Rehearse(plan.Knowing(Certain), 6, seed: 4);
        Assert.InRange(Figure(result, "speed-after").Median!.Value, 0.5 * Figure(result, "peak-speed").Median!.Value, 0.99 * Figure(result, "peak-speed").Median!.Value);
    }

    [Fact]
    public void The_same_seed_predicts_the_same_to_the_bit_and_another_seed_another()
    {
        RehearsalResult one = Rehearser.Rehearse(Workshop.Plan(), 24, seed: 7), two = Rehearser.Rehearse(Workshop.Plan(), 24, seed: 7);
        Assert.Equal(one.Figures, two.Figures);
        Assert.Equal(one.Bands.SelectMany(b => b.Steps).SelectMany(s => s.Low), two.Bands.SelectMany(b => b.Steps).SelectMany(s => s.Low));
        Assert.NotEqual(one.Figures, Rehearser.Rehearse(Workshop.Plan(), 24, seed: 8).Figures);
    }

    [Fact]
    public void Where_nothing_is_uncertain_every_bench_is_the_declared_one()
    {
        RehearsalPlan plan = Workshop.Plan();
        RehearsalPlan certain = plan.Knowing(Certain);
        PredictedFigure peak = Figure(Rehearser.Rehearse(certain, 12, seed: 3), "peak-speed");
        // What is left is the tachometer's jitter.
        Assert.InRange(peak.Interval95!.Value.High - peak.Interval95.Value.Low, 0, 5);
    }

    [Theory]
    [InlineData(11ul)]
    [InlineData(12ul)]
    public void A_bench_drawn_anew_falls_into_the_interval_about_as_often_as_it_says(ulong seed)
    {
        RehearsalPlan plan = Workshop.Plan();
        RehearsalResult predicted = Rehearser.Rehearse(plan, 120, seed);
        (double low, double high) = Figure(predicted, "coast-down-time").Interval95!.Value;
        int inside = Enumerable.Range(0, 60).Count(i =>
        {
            ulong own = seed * 7919 + (ulong)i;
            VirtualResult real = new VirtualRun(plan, BenchDraw.Draw(plan.Likely, plan.Spread, own), own, new BandTable(Rehearser.Banded.Length, plan.Configuration.StepCount)).Run(["coast-down-time"]);
            Assert.True(real.Figures[0].Value > 0, real.Figures[0].Note);
            return real.Figures[0].Value >= low && real.Figures[0].Value <= high;
        });
        // 95 % of 60 is 57; the ends of an interval from 120 samples are themselves uncertain.
        Assert.InRange(inside, 50, 60);
    }

    [Fact]
    public void More_energy_than_the_enclosure_is_rated_for_is_refused()
    {
        RehearsalResult result = Rehearser.Rehearse(Workshop.Plan(0.6, Workshop.Rig with { EnclosureRating = 30 }), 20, seed: 1);
        Assert.Equal(2, result.Refusals.Count);
        Assert.StartsWith("a runaway stores up to", result.Refusals[0], StringComparison.Ordinal);
        Assert.Matches("^the rotor will store up to [0-9]+ J, more than the 30 J that box's enclosure is rated for; lower the throttle$", result.Refusals[1]);
    }

    [Trait("Requirement", "SAF-085")]
    [Fact]
    public void A_rehearsal_refuses_an_enclosure_that_a_runaway_could_break()
    {
        RehearsalResult result = Rehearser.Rehearse(Workshop.Plan(0.3, Workshop.Rig with { EnclosureRating = 150 }), 20, seed: 1);
        string refusal = Assert.Single(result.Refusals);
        Assert.Matches("^a runaway stores up to [0-9]+ J at [0-9]+ rpm .*, more than the 150 J that box's enclosure is rated for; take fewer cells", refusal);
        Assert.DoesNotContain(refusal, result.Notes);
    }

    [Fact]
    public void An_enclosure_that_holds_a_runaway_one_that_nobody_rated_and_the_lid_are_notes()
    {
        IReadOnlyList<string> rated = Rehearser.Rehearse(Workshop.Plan(0.3, Workshop.Rig with { EnclosureRating = 900 }), 5, seed: 1).Notes;
        Assert.Contains(rated, n => n.Contains("within the 900 J", StringComparison.Ordinal));
        Assert.Contains(rated, n => n.StartsWith("box with disc-180: the lid must be locked until standstill", StringComparison.Ordinal));
        RehearsalResult unrated = Rehearser.Rehearse(Workshop.Plan(0.3, Workshop.Rig with { EnclosureRating = null }), 5, seed: 1);
        Assert.Empty(unrated.Refusals);
        Assert.Contains(unrated.Notes, n => n.Contains("nobody has rated box's enclosure", StringComparison.Ordinal));
    }

    [Fact]
    public void More_speed_than_the_builder_allows_is_refused()
    {
        Article slow = Workshop.Disc with { Rotor = Workshop.Disc.Rotor! with { MaximumSpeed = 4000 } };
        Assert.Contains(Rehearser.Rehearse(Workshop.Plan(0.6, article: slow), 20, seed: 1).Refusals, r => r.Contains("more than the 4000 rpm that its builder allows", StringComparison.Ordinal));
    }

    [Fact]
    public void An_interlock_that_would_stop_the_run_is_named_with_step_and_share()
    {
        RehearsalResult result = Rehearser.Rehearse(Workshop.Plan(0.5, null, null, Workshop.Ceiling(3000)), 20, seed: 1);
        PredictedStop stop = Assert.Single(result.Stops);
        Assert.Equal(("ceiling", 2, 1.0), (stop.Interlock, stop.Step, stop.Share));
        Assert.StartsWith("step 2: ceiling stops 100 % of the samples (", Assert.Single(result.Refusals), StringComparison.Ordinal);
        Assert.Equal(0, result.Completed);
    }

    [Fact]
    public void The_room_left_to_an_interlock_is_the_smallest_of_the_run()
    {
        PredictedMargin margin = Assert.Single(Rehearser.Rehearse(Workshop.Plan(0.5, null, null, Workshop.Ceiling(8000)), 20, seed: 1).Margins);
        double peak = Figure(Rehearser.Rehearse(Workshop.Plan(), 20, seed: 1), "peak-speed").Median!.Value;
        Assert.Equal(1 - peak / 8000, margin.Median, 0.02);
        Assert.True(margin.Lowest <= margin.Median);
        Assert.Equal(0, margin.Trips);
    }

    [Fact]
    public void Every_value_of_a_sample_lies_in_the_bands()
    {
        RehearsalResult result = Rehearser.Rehearse(Workshop.Plan(), 20, seed: 5);
        RehearsedBand speed = result.Bands.Single(b => b.Channel == "rotor.speed");
        Assert.Equal(4, speed.Steps.Count);
        Assert.All(speed.Steps.SelectMany(s => s.Low.Zip(s.High)), band => Assert.True(band.First <= band.Second));
        double peak = Figure(result, "peak-speed").Interval95!.Value.High;
        Assert.True(speed.Steps[2].High.Max() >= peak - 50);
        Assert.Empty(speed.Steps[0].Low);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(100_001)]
    public void A_number_of_samples_that_is_none_is_refused(int samples) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Rehearser.Rehearse(Workshop.Plan(), samples, 1));
}
