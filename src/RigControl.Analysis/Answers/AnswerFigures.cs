using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Answers;

/// <summary>Figures that come from what a person typed: weighed, or tried and counted.</summary>
internal static class AnswerFigures
{
    /// <summary>Mean of each question's readings that are masses, g.</summary>
    public static IEnumerable<(string Of, Measured Figure)> Mass(FigureInput input)
    {
        Answer[] masses = [.. input.Answers.Where(a => a is { Kind: AnswerKind.Reading, Unit: "g" })];
        return masses.Length == 0
            ? throw new NoFigureException("no question of the run was answered with a mass")
            : masses.GroupBy(a => a.Name).Select(g => ($"{Count(g.Count(), "reading")} of {g.Key}", Mean([.. g])));
    }

    /// <summary>Passed trials over all of each question, %, with limits that hold as often as those of the other figures.</summary>
    public static IEnumerable<(string Of, Measured Figure)> SuccessRate(FigureInput input)
    {
        Answer[] trials = [.. input.Answers.Where(a => a.Kind == AnswerKind.Trial)];
        return trials.Length == 0
            ? throw new NoFigureException("no trial of the run was answered")
            : trials.GroupBy(a => a.Name).Select(g => ($"{Count(g.Count(), "trial")} of {g.Key}", Share(g.Count(a => a.Value > 0), g.Count())));
    }

    private static Measured Share(int passed, int trials)
    {
        (double low, double high) = Proportion.Limits(passed, trials);
        return new Measured(100.0 * passed / trials, 100 * Proportion.Deviation(passed, trials))
        {
            Asymmetric = (100 * low, 100 * high), Note = $"{passed} of {trials} passed",
        };
    }

    // The step of the scale is in every reading alike and does not average out; its own error is in none of them.
    private static Measured Mean(Answer[] readings)
    {
        double[] values = [.. readings.Select(r => r.Value)];
        double scatter = values.Length > 1 ? Summary.Deviation(values) / Math.Sqrt(values.Length) : 0;
        double step = Measured.OfResolution(readings.Max(r => r.Resolution));
        return Measured.Of(
            Summary.Mean(values),
            new Input("scatter of the readings", 0, scatter, Math.Max(1, values.Length - 1)),
            new Input("resolution of the scale", 0, step)) with { Note = values.Length == 1 ? "a single reading; the scale's own error is not known" : "the scale's own error is not known" };
    }

    private static string Count(int count, string what) => $"{count} {what}{(count == 1 ? "" : "s")}";
}
