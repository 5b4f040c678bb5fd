using RigControl.Analysis.Answers;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Analysis.Tests.Answers;

public class AnswerFiguresTests
{
    /// <summary>Source: derived; the step of the scale over the root of 12 (JCGM 100:2008, F.2.2.1, from memory).</summary>
    [Fact]
    public void A_single_weighing_is_known_to_the_step_of_the_scale()
    {
        Figure mass = Assert.Single(Of("mass", Weighed("rotor", 181, 1)));
        Assert.Equal((181, "g", 0), (mass.Value, mass.Unit, mass.Repeat));
        Near.Relative(1 / Math.Sqrt(12), mass.StandardUncertainty!.Value, 1e-12);
        Assert.Contains("1 reading of rotor", mass.Method, StringComparison.Ordinal);
    }

    /// <summary>Source: derived; mean 181.2, deviation 0.8367, over the root of 5; the step does not average out.</summary>
    [Fact]
    public void Several_weighings_have_their_mean_with_scatter_and_step()
    {
        Figure mass = Assert.Single(Of("mass", [.. new[] { 180.0, 181, 181, 182, 182 }.Select(v => Weighed("rotor", v, 1))]));
        Near.Relative(181.2, mass.Value!.Value, 1e-12);
        Near.Relative(Math.Sqrt(0.7 / 5 + 1.0 / 12), mass.StandardUncertainty!.Value, 1e-12);
        Assert.True(mass.Interval95!.Value.High - 181.2 > 1.96 * mass.StandardUncertainty.Value, "few readings widen the interval");
    }

    [Fact]
    public void Every_question_has_a_figure_of_its_own()
    {
        IReadOnlyList<Figure> masses = Of("mass", Weighed("rotor", 181, 1), Weighed("robot", 1350, 5), Weighed("rotor", 182, 1));
        Assert.Equal([181.5, 1350], masses.Select(m => m.Value!.Value));
    }

    [Fact]
    public void Readings_of_something_else_are_no_masses() =>
        Assert.Contains("mass", Assert.Single(Of("mass", new Answer("speed", AnswerKind.Reading, 9000, "rpm", 1))).Note, StringComparison.Ordinal);

    [Fact]
    public void Trials_have_their_share_with_exact_limits()
    {
        Figure rate = Assert.Single(Of("success-rate", [.. Enumerable.Range(0, 10).Select(i => new Answer("self-rights", AnswerKind.Trial, i < 8 ? 1 : 0, "", 0))]));
        Assert.Equal((80, "%", "8 of 10 passed"), (rate.Value, rate.Unit, rate.Note));
        (double low, double high) = Proportion.Limits(8, 10);
        Assert.Equal((100 * low, 100 * high), rate.Interval95);
        Assert.True(rate.StandardUncertainty > 0);
    }

    [Fact]
    public void Trials_that_all_passed_are_still_uncertain()
    {
        Figure rate = Assert.Single(Of("success-rate", new Answer("drives", AnswerKind.Trial, 1, "", 0)));
        Assert.Equal(100, rate.Value);
        Near.Relative(5, rate.Interval95!.Value.Low, 1e-6);
        Assert.True(rate.StandardUncertainty > 10);
    }

    [Fact]
    public void Without_a_trial_the_reason_says_so() => Assert.Contains("no trial", Assert.Single(Of("success-rate")).Note, StringComparison.Ordinal);

    private static Answer Weighed(string name, double value, double resolution) => new(name, AnswerKind.Reading, value, "g", resolution);

    private static IReadOnlyList<Figure> Of(string figure, params Answer[] answers) =>
        FigureCatalog.Compute([figure], new FigureInput(new MadeTrace().Build(), null, FigureContext.UsualRestSpeed) { Answers = answers });
}
