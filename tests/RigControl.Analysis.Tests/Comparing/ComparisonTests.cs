using RigControl.Analysis.Comparing;
using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Comparing;

/// <summary>Many figures at once: no more alarms than promised, and a sentence to each.</summary>
public class ComparisonTests
{
    private const int Names = 12;

    [Theory]
    [InlineData(3, 81UL)]
    [InlineData(6, 82UL)]
    public void Among_many_figures_without_a_difference_any_is_called_changed_in_at_most_a_twentieth_of_comparisons(int runs, ulong seed)
    {
        const int trials = 1000;
        SplitMix chance = new(seed);
        int alarms = 0;
        for (int trial = 0; trial < trials; trial++)
        {
            IReadOnlyList<ComparedFigure> compared = Comparison.Of(Runs(ref chance, runs, 0), Runs(ref chance, runs, 0), sameRig: true, fresh: false);
            Assert.Equal(Names, compared.Count);
            alarms += compared.Any(f => f.Verdict == Verdict.Changed) ? 1 : 0;
        }

        double most = ComparedFigure.Level + 4 * Math.Sqrt(0.05 * 0.95 / trials);
        Assert.True((double)alarms / trials < most, $"seed {seed}: {alarms} of {trials}");
    }

    [Fact]
    public void What_a_comparison_says_it_would_have_shown_is_shown_about_as_often_as_promised()
    {
        const ulong seed = 83;
        const int trials = 800;
        SplitMix chance = new(seed);
        double mean = 0;
        for (int trial = 0; trial < 200; trial++)
            mean += Comparison.Of(Runs(ref chance, 8, 0), Runs(ref chance, 8, 0), sameRig: true, fresh: false)[0].Detectable / 200;
        int seen = 0;
        for (int trial = 0; trial < trials; trial++)
            seen += Comparison.Of(Runs(ref chance, 8, mean), Runs(ref chance, 8, 0), sameRig: true, fresh: false)[0].Verdict == Verdict.Changed ? 1 : 0;
        Assert.InRange((double)seen / trials, 0.74, 0.9);
    }

    [Fact]
    public void A_change_is_told_with_its_size_its_interval_and_that_it_is_more_than_noise()
    {
        string sentence = VerdictText.Of(One("spin-up-time", "s", [2.00, 2.01, 1.99, 2.00], [1.90, 1.91, 1.89, 1.90]));
        Assert.StartsWith("spin-up-time shorter by 5.00 % ± 0.71 %", sentence, StringComparison.Ordinal);
        Assert.EndsWith("more than noise", sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_nothing_is_seen_it_is_told_what_would_have_been()
    {
        ComparedFigure figure = One("steady-speed", "rpm", [9000, 9050, 8950], [9010, 8960, 9060]);
        Assert.Equal(Verdict.NoDifference, figure.Verdict);
        Assert.Matches(@"^steady-speed: no difference seen; this comparison would have shown \d\.\d %$", VerdictText.Of(figure));
    }

    [Fact]
    public void A_value_each_is_no_comparison_and_is_told_so()
    {
        ComparedFigure figure = One("steady-speed", "rpm", [9000], [12000]);
        Assert.Equal(Verdict.Unknown, figure.Verdict);
        Assert.Null(figure.Difference.Interval95);
        Assert.Contains("repeats is unknown", VerdictText.Of(figure), StringComparison.Ordinal);
    }

    [Fact]
    public void One_of_many_that_is_only_just_beyond_noise_is_called_perhaps()
    {
        Figure[][] a = [.. Enumerable.Range(0, 4).Select(i => Many([10.0 + 0.1 * i, 5 + i % 2, 7 - i % 2, 3 + i % 3, 8 + i % 2, 4 + i % 3]))];
        Figure[][] b = [.. Enumerable.Range(0, 4).Select(i => Many([10.24 + 0.1 * i, 5 + i % 2, 7 - i % 2, 3 + i % 3, 8 + i % 2, 4 + i % 3]))];
        ComparedFigure first = Comparison.Of(a, b, sameRig: true, fresh: false)[0];
        Assert.Equal(Verdict.Perhaps, first.Verdict);
        Assert.Contains("perhaps", VerdictText.Of(first), StringComparison.Ordinal);
    }

    [Fact]
    public void Figures_that_one_side_lacks_or_has_in_another_unit_are_not_compared()
    {
        Figure[] a = [Of("mass", "g", 180), Of("peak-speed", "rpm", 9000), new("drag-constant", null, "N.m", null, null, 1, "m", "no inertia")];
        Figure[] b = [Of("mass", "oz", 6), Of("peak-speed", "rpm", 9100), Of("charge-used", "mAh", 20)];
        Assert.Equal("peak-speed", Assert.Single(Comparison.Of([a], [b], sameRig: true, fresh: false)).Name);
    }

    [Fact]
    public void Temperatures_of_different_channels_are_kept_apart()
    {
        Figure[] a = [Rise("motor.temperature", 20), Rise("battery.temperature", 5)];
        Figure[] b = [Rise("motor.temperature", 25), Rise("battery.temperature", 6)];
        Assert.Equal([5.0, 1.0], Comparison.Of([a], [b], sameRig: true, fresh: false).Select(f => f.Difference.Value));
    }

    [Fact]
    public void Repeats_of_a_single_run_stand_for_themselves_and_of_several_runs_for_their_mean()
    {
        Figure[] repeats = [Of("peak-speed", "rpm", 1, 1), Of("peak-speed", "rpm", 3, 2)];
        Assert.Equal([1.0, 3.0], ValueGroup.Of([repeats], fresh: false).Values);
        Assert.Equal([2.0, 2.0], ValueGroup.Of([repeats, repeats], fresh: false).Values);
    }

    private static Figure Rise(string channel, double value) => new("temperature-rise", value, "K", 0.1, null, 1, $"highest minus first of {channel}", null);

    private static Figure[] Many(double[] values) => [.. values.Select((v, i) => Of($"figure-{i}", "V", v))];

    private static Figure Of(string name, string unit, double value, int repeat = 1) => new(name, value, unit, 0.01, null, repeat, "m", null);

    private static ComparedFigure One(string name, string unit, double[] a, double[] b) => Assert.Single(Comparison.Of(
        [.. a.Select(v => new[] { Of(name, unit, v) })], [.. b.Select(v => new[] { Of(name, unit, v) })], sameRig: true, fresh: false));

    private static Figure[][] Runs(ref SplitMix chance, int runs, double firstMoved)
    {
        Figure[][] all = new Figure[runs][];
        for (int run = 0; run < runs; run++)
            all[run] = [.. Draw.Group(ref chance, Names, 100, 1).Values.Select((v, i) => Of($"figure-{i}", "V", i == 0 ? v + firstMoved : v))];
        return all;
    }
}
