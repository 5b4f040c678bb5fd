using System.Globalization;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Uncertainty;
using RigControl.Cli.Output;
using RigControl.Model.Records;

namespace RigControl.Cli.Reckonings;

/// <summary>What was reckoned from what a person stated, as figures.</summary>
internal static class Reckoned
{
    /// <summary>The figure of a formula.</summary>
    /// <exception cref="CliException">What was stated leads to no number; exit code 2.</exception>
    public static Figure Of(string name, string unit, string method, Func<Measured> formula)
    {
        Measured found;
        try
        {
            found = formula();
        }
        catch (NoFigureException e)
        {
            throw new CliException(ExitCode.BadInput, $"no {name}: {e.Message}");
        }

        if (!double.IsFinite(found.Value) || !double.IsFinite(found.Uncertainty))
            throw new CliException(ExitCode.BadInput, $"no {name}: what was stated leads to no number");
        // Nothing stated with an uncertainty is no proof that there is none.
        return found.Uncertainty > 0
            ? new Figure(name, found.Value, unit, found.Uncertainty, found.Interval95, 0, method, "what was stated without an uncertainty counts as exact") { Budget = found.Budget }
            : new Figure(name, found.Value, unit, null, null, 0, method, "how well it is known is unknown: nothing was stated with its uncertainty");
    }

    /// <summary>On standard output, with interval and budget.</summary>
    public static int Write(bool json, params IReadOnlyList<Figure> figures)
    {
        if (json)
        {
            JsonText.Write(new { figures = figures.Select(RunDocument.Of) });
            return ExitCode.Done;
        }

        foreach (Figure figure in figures)
        {
            Console.WriteLine($"{figure.Name}: {FigureText.Of(figure)} ({figure.Method})");
            if (figure.Interval95 is { } interval)
                Console.WriteLine($"  95 %: {End(interval.Low, figure)} to {End(interval.High, figure)} {figure.Unit}; of it {BudgetText.Whole(figure)}");
            Console.WriteLine($"  {figure.Note}");
        }

        return ExitCode.Done;
    }

    private static string End(double value, Figure figure) => Rounding.Of(value, figure.StandardUncertainty).Value.ToString(CultureInfo.InvariantCulture);
}
