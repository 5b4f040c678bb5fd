using System.Text.Json.Nodes;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Tests.Support;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Speed;

/// <summary>Source: sampling theorem, derived; video/frame_timing.json.</summary>
public class FrameCountTests
{
    private static readonly JsonNode Data = Reference.Json("video/frame_timing.json");

    [Fact]
    public void The_limits_of_a_clip_are_those_of_the_sampling_theorem()
    {
        JsonArray cases = Data["aliasing"]!["cases"]!.AsArray();
        Assert.True(cases.Count >= 18);
        foreach (JsonNode? c in cases)
        {
            (double rate, int marks) = (Reference.Number(c!, "fps"), (int)Reference.Number(c!, "marks"));
            Near.Relative(Reference.Number(c!, "known_direction_rpm"), FrameCount.Limit(rate, marks, directionKnown: true), 1e-12);
            Near.Relative(Reference.Number(c!, "nyquist_rpm"), FrameCount.Limit(rate, marks, directionKnown: false), 1e-12);
        }
    }

    /// <summary>Common practice, no source: one mark at 240 frames a second is readable below 14,400 rpm when the direction is known, at 120 below 7,200.</summary>
    [Theory]
    [InlineData(240, 14_400)]
    [InlineData(120, 7_200)]
    public void One_mark_is_readable_up_to_what_the_trade_says(double rate, double limit) => Assert.Equal(limit, FrameCount.Limit(rate, 1, directionKnown: true));

    [Fact]
    public void Counted_turns_give_the_speed_with_the_uncertainty_of_two_frames()
    {
        JsonNode example = Data["frame_timing"]!["example"]!;
        Measured speed = FrameCount.Of(Reference.Number(example, "revs"), Reference.Number(example, "frames"), Reference.Number(example, "fps"));
        Near.Relative(Reference.Number(example, "rpm"), speed.Value, 1e-12);
        Near.Relative(Reference.Number(example, "u_rpm"), speed.Uncertainty, 1e-4);
    }

    [Fact]
    public void A_speed_that_looks_like_a_slower_one_is_refused_with_the_limit() =>
        Assert.Contains("below 3600 rpm", Assert.Throws<NoFigureException>(() => FrameCount.Of(20, 48, 240, marks: 2, directionKnown: false)).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void The_true_speed_is_among_those_that_look_the_same(bool known)
    {
        SplitMix chance = new(5);
        for (int i = 0; i < 200; i++)
        {
            (double truth, double rate, int marks) = (chance.Uniform(100, 20_000), chance.Uniform(30, 480), 1 + (int)chance.Uniform(0, 3));
            double[] aliases = [.. FrameCount.Aliases(truth, rate, marks, 21_000, known)];
            Assert.Contains(aliases, a => Math.Abs(a - truth) < 1e-6);
            Assert.Equal(aliases.Order(), aliases);
            // What looks the same differs by whole frames, or mirrors it.
            double step = 60 * rate / marks;
            Assert.All(aliases, a => Assert.True(Whole((a - truth) / step) || (!known && Whole((a + truth) / step)), $"seed 5: {a} for {truth}"));
        }
    }

    [Fact]
    public void Counting_by_chance_falls_within_the_interval_as_often_as_it_says()
    {
        SplitMix chance = new(6);
        int held = 0;
        for (int i = 0; i < 2000; i++)
        {
            double truth = chance.Uniform(500, 6000), turns = 20;
            // The first frame that shows the mark passed, at either end.
            double begin = chance.Uniform(), frames = Math.Ceiling(begin + turns * 60 / truth * 240) - Math.Ceiling(begin);
            (double low, double high) = FrameCount.Of(turns, frames, 240).Interval95;
            held += low <= truth && truth <= high ? 1 : 0;
        }

        Assert.InRange(held, 1860, 2000);
    }

    private static bool Whole(double x) => Math.Abs(x - Math.Round(x)) < 1e-6;
}
