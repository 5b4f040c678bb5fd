using System.Globalization;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;

namespace RigControl.Cli.Output;

/// <summary>A figure as a person reads it: rounded to its uncertainty, two digits of it.</summary>
internal static class FigureText
{
    // Figures of which the number alone says too little.
    private static readonly string[] Minded = ["temperature-rise", "match-share", "state-of-charge", "time-to-limit", "continuous-current", "drag-quadratic"];

    public static string Of(Figure figure)
    {
        if (figure.Value is not { } value)
            return $"no value: {figure.Note}";
        (string shown, string uncertainty) = Rounding.Of(value, figure.StandardUncertainty);
        return uncertainty.Length > 0 ? $"{shown} ± {uncertainty} {figure.Unit}" : $"{shown} {figure.Unit}";
    }

    /// <summary>A table: name, repeat, value with standard uncertainty and what most of that comes from; below it what to mind about those of which a number alone says too little.</summary>
    public static IEnumerable<string> Table(IReadOnlyList<Figure> figures)
    {
        if (figures.Count == 0)
            yield break;
        yield return "figure              repeat  value ± standard uncertainty";
        foreach (Figure figure in figures)
        {
            string repeat = figure.Repeat == 0 ? "all" : figure.Repeat.ToString(CultureInfo.InvariantCulture);
            yield return $"{figure.Name,-19} {repeat,6}  {Of(figure)}{Which(figure)}{Mostly(figure)}";
        }

        foreach (string minded in figures.Where(f => f is { Value: not null, Note: not null } && Minded.Contains(f.Name)).Select(f => $"{f.Name}: {f.Note}").Distinct())
            yield return minded;
    }

    private static string Mostly(Figure figure) => BudgetText.Mostly(figure) is { Length: > 0 } text ? $"; {text}" : "";

    // Several temperatures share one name; the method says which is meant.
    private static string Which(Figure figure) => FigureCatalog.IsPerChannel(figure.Name) || figure.Name is "mass" or "success-rate" ? $"  ({figure.Method})" : "";
}
