using System.Globalization;
using RigControl.Analysis.Uncertainty;
using RigControl.Rehearsal.Results;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Rehearsals;

/// <summary>A rehearsal as a person reads it.</summary>
internal static class RehearsalText
{
    // Whoever has more room than this need not be told how much.
    private const double Roomy = 0.5;

    public static void Print(RigDocuments documents, RehearsalResult result)
    {
        Console.WriteLine($"rehearsal of {documents.Procedure.Name} of {documents.Article.Name} on {documents.Rig.Name}: {result.Samples} benches that may be the real one");
        Console.WriteLine(Text($"the procedure is done on {Share(result.Completed)} of them, in about {result.Seconds:0} s"));
        Console.WriteLine("figure              repeat  predicted       95 % of the benches");
        foreach (PredictedFigure figure in result.Figures.Where(f => f.Median is not null))
            Console.WriteLine(Row(figure));
        foreach (PredictedFigure none in result.Figures.Where(f => f.Note is not null))
            Console.WriteLine($"{none.Name}: {none.Note}");
        PrintMargins(result);
        foreach (string note in result.Notes)
            Console.WriteLine(note);
        Console.WriteLine("a prediction from declared data is no measurement and no permission: watch the run itself");
    }

    private static void PrintMargins(RehearsalResult result)
    {
        Console.WriteLine("interlock           room left, usual  least  stops");
        foreach (PredictedMargin margin in result.Margins.Where(m => m.Lowest < Roomy || m.Trips > 0))
        {
            Console.WriteLine(Text($"{margin.Interlock,-19} {Share(Math.Max(0, margin.Median)),16} {Share(Math.Max(0, margin.Lowest)),6} {Share(margin.Trips),6}")
                + (margin.Closest is { } closest ? $"  {closest}" : ""));
        }

        int roomy = result.Margins.Count(m => m.Lowest >= Roomy && m.Trips == 0);
        if (roomy > 0)
            Console.WriteLine($"{roomy} more with at least half their limit left");
    }

    private static string Row(PredictedFigure figure)
    {
        (double low, double high) = figure.Interval95!.Value;
        string repeat = figure.Repeat == 0 ? "all" : figure.Repeat.ToString(CultureInfo.InvariantCulture);
        (string shown, _) = Rounding.Of(figure.Median!.Value, (high - low) / 4);
        string value = $"{shown} {figure.Unit}";
        string of = figure.Of.Length > 0 ? $"  ({figure.Of})" : "";
        return $"{figure.Name,-19} {repeat,6}  {value,-15} {Rounding.Of(low, (high - low) / 4).Item1} to {Rounding.Of(high, (high - low) / 4).Item1}{of}";
    }

    private static string Share(double share) => Text($"{share * 100:0} %");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
