using RigControl.Analysis.Answers;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Repeats;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Surveys;

/// <summary>What a person weighs, tries and repeats: readings as chance draws them around a truth.</summary>
internal static class HandRun
{
    /// <summary>Mass, success rate and the mean of repeats, each with its truth.</summary>
    public static IEnumerable<(string Name, Figure? Figure, double Truth)> Of(ulong seed)
    {
        SplitMix chance = new(seed * 3571 + 11);
        return [Mass(ref chance), SuccessRate(ref chance), Mean(ref chance)];
    }

    // Taken off and put on again, which scatters by less than a step or by several.
    private static (string, Figure?, double) Mass(ref SplitMix chance)
    {
        double truth = chance.Uniform(50, 1500), step = chance.Uniform() < 0.5 ? 0.1 : 1, scatter = step * chance.Uniform(0.3, 3);
        List<Answer> answers = [];
        for (int count = (int)chance.Uniform(3, 10.999); count > 0; count--)
            answers.Add(new Answer("weigh", AnswerKind.Reading, step * Math.Round((truth + scatter * chance.Bell()) / step), "g", step));
        return ("mass", Answered("mass", answers), truth);
    }

    private static (string, Figure?, double) SuccessRate(ref SplitMix chance)
    {
        double truth = chance.Uniform(0.1, 0.9);
        List<Answer> answers = [];
        for (int count = (int)chance.Uniform(5, 40.999); count > 0; count--)
            answers.Add(new Answer("try", AnswerKind.Trial, chance.Uniform() < truth ? 1 : 0, "", 1));
        return ("success-rate", Answered("success-rate", answers), 100 * truth);
    }

    // Repeats that scatter as much as each is known to, or several times as much.
    private static (string, Figure?, double) Mean(ref SplitMix chance)
    {
        const double truth = 100;
        double known = chance.Uniform(0.1, 1), between = chance.Uniform() < 0.3 ? 0 : known * chance.Uniform(0.5, 5);
        List<Measured> repeats = [];
        for (int count = (int)chance.Uniform(3, 8.999); count > 0; count--)
            repeats.Add(new Measured(truth + between * chance.Bell() + known * chance.Bell(), known));
        Measured mean = RepeatStatistics.Of(repeats).Mean;
        return ("mean of repeats", new Figure("mean of repeats", mean.Value, "1", mean.Uncertainty, mean.Interval95, 0, "", null), truth);
    }

    private static Figure? Answered(string name, IReadOnlyList<Answer> answers) =>
        FigureCatalog.Compute([name], new FigureInput(new Trace(new Dictionary<string, Series>(), []), null, FigureContext.UsualRestSpeed) { Answers = answers }).FirstOrDefault();
}
