using RigControl.Analysis.Rules;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Tests.Rules;

/// <summary>A figure is inside or outside a copied limit only where all of its 95 % interval is.</summary>
public class RuleJudgeTests
{
    [Theory]
    [InlineData(48, 49.9, RuleVerdict.Inside)]
    [InlineData(48, 50, RuleVerdict.Inside)]
    [InlineData(49, 50.1, RuleVerdict.TooClose)]
    [InlineData(50, 52, RuleVerdict.TooClose)]
    [InlineData(50.1, 52, RuleVerdict.Outside)]
    [InlineData(double.NaN, double.NaN, RuleVerdict.TooClose)]
    public void The_whole_interval_decides_and_the_limit_itself_keeps_to_it(double low, double high, RuleVerdict verdict)
    {
        Assert.Equal(verdict, RuleJudge.Judge(Limit(RuleKind.TipSpeed, 50), low, high));
        Assert.Equal(verdict, Of(RuleKind.TipSpeed, 50, Found("tip-speed", 50, "m/s") with { Interval95 = (low, high) }).Found!.Verdict);
    }

    [Theory]
    [InlineData(RuleKind.ClassMass, "mass", "g", 1400.0, 1.5, "kg")]
    [InlineData(RuleKind.TipSpeed, "tip-speed", "m/s", 40.0, 50.0, "m/s")]
    [InlineData(RuleKind.StoppingTime, "coast-down-time", "s", 40.0, 60.0, "s")]
    [InlineData(RuleKind.Voltage, "peak-voltage", "V", 12.6, 14.8, "V")]
    public void Each_kind_of_limit_is_answered_by_its_figure_in_the_limit_s_own_unit(RuleKind kind, string figure, string unit, double value, double limit, string limitUnit)
    {
        JudgedRule judged = Of(kind, limit, Found(figure, value, unit) with { StandardUncertainty = 0.1 });
        Assert.Equal(RuleVerdict.Inside, judged.Found!.Verdict);
        Assert.Equal(limitUnit, RuleJudge.FigureOf(kind).LimitUnit);
        Assert.InRange(judged.Found.Value, 0.5 * limit, limit);
    }

    [Theory]
    [InlineData(49.7, RuleVerdict.Inside)]
    [InlineData(49.9, RuleVerdict.TooClose)]
    [InlineData(50.1, RuleVerdict.TooClose)]
    [InlineData(50.3, RuleVerdict.Outside)]
    public void Without_an_interval_of_its_own_a_figure_reaches_two_standard_uncertainties_to_each_side(double value, RuleVerdict verdict) =>
        Assert.Equal(verdict, Of(RuleKind.TipSpeed, 50, Found("tip-speed", value, "m/s") with { StandardUncertainty = 0.1 }).Found!.Verdict);

    [Theory]
    [InlineData(1.0, RuleVerdict.TooClose)]
    [InlineData(51.0, RuleVerdict.Outside)]
    public void A_figure_of_unknown_uncertainty_is_never_inside(double value, RuleVerdict verdict) =>
        Assert.Equal(verdict, Of(RuleKind.TipSpeed, 50, Found("tip-speed", value, "m/s")).Found!.Verdict);

    [Fact]
    public void Of_several_the_one_that_could_be_farthest_beyond_is_judged()
    {
        Figure inside = Found("tip-speed", 40, "m/s") with { StandardUncertainty = 1 }, close = inside with { Value = 49, Repeat = 2 }, outside = inside with { Value = 53, Repeat = 3 };
        Figure wide = inside with { Value = 45, StandardUncertainty = 20, Repeat = 4 }, unknown = inside with { Value = 1, StandardUncertainty = null, Repeat = 5 };
        Assert.Equal(2, Of(RuleKind.TipSpeed, 50, inside, close).Found!.Figure.Repeat);
        Assert.Equal(3, Of(RuleKind.TipSpeed, 50, inside, close, outside, wide).Found!.Figure.Repeat);
        Assert.Equal(5, Of(RuleKind.TipSpeed, 50, inside, unknown).Found!.Figure.Repeat);
    }

    [Fact]
    public void Without_its_figure_a_limit_is_not_judged_and_the_reason_says_what_to_name()
    {
        Figure reason = new("tip-speed", null, "m/s", null, null, 1, "m", "no rotor"), mass = Found("mass", 1, "g");
        JudgedRule judged = Of(RuleKind.TipSpeed, 50, reason, mass, Found("tip-speed", 40, "furlong"));
        Assert.Null(judged.Found);
        Assert.Equal("the run has no tip-speed: name it among the procedure's figures, or enter it", judged.Lack);
    }

    [Fact]
    public void A_limit_without_source_or_day_is_not_judged()
    {
        Figure fast = Found("tip-speed", 400, "m/s");
        foreach (RuleLimit hearsay in new[] { Limit(RuleKind.TipSpeed, 50) with { Source = " " }, Limit(RuleKind.TipSpeed, 50) with { Date = default } })
        {
            JudgedRule judged = Assert.Single(RuleJudge.Of(new EventRules("r", [hearsay]), [fast]));
            Assert.Null(judged.Found);
            Assert.Contains("where the limit stands and of which day", judged.Lack, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_blank_file_judges_nothing() => Assert.Empty(RuleJudge.Of(new EventRules("blank", []), [Found("mass", 1, "g")]));

    [Fact]
    public void A_verdict_that_nobody_gave_promises_nothing() => Assert.Equal(RuleVerdict.TooClose, default);

    private static RuleLimit Limit(RuleKind kind, double value) => new(kind, value, "section 5", new DateOnly(2026, 5, 31));

    private static Figure Found(string name, double value, string unit) => new(name, value, unit, null, null, 1, "m", null);

    private static JudgedRule Of(RuleKind kind, double limit, params Figure[] figures) =>
        Assert.Single(RuleJudge.Of(new EventRules("r", [Limit(kind, limit)]), figures));
}
