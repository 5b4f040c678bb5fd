using RigControl.Analysis.Comparing;
using RigControl.Analysis.Uncertainty;
using RigControl.Cli.Comparing;

namespace RigControl.Cli.Output;

/// <summary>A comparison as JSON and as text.</summary>
internal static class ComparisonDocument
{
    public static object Of(IReadOnlyList<RunComparison> comparisons) => new
    {
        a = Side(comparisons[0].A),
        b = comparisons.Select(c => Side(c.B)),
        simulated = comparisons[0].A.Simulated,
        figures = comparisons.SelectMany(c => c.Figures.Select(f => Of(c, f))),
        conditions = comparisons.SelectMany(c => c.Conditions).Distinct(),
        parts = comparisons.SelectMany(c => c.Parts).Distinct().Select(p => new { run = p.Run, part = p.Part.Subject, text = p.Part.Text }),
        whySlower = comparisons.Where(c => c.Why is not null).Select(Why),
        changed = comparisons.Any(c => c.Changed),
    };

    private static object Why(RunComparison c) => new
    {
        against = c.B.Label,
        reason = c.Why!.Reason,
        speed = c.Why.Split is { } s ? s.Speed * 30 / Math.PI : (double?)null,
        unit = "rpm",
        a = c.Why.Split?.First.Value, b = c.Why.Split?.Second.Value,
        runsA = c.Why.Runs.A, runsB = c.Why.Runs.B, repeatsA = c.Why.Split?.Repeats.First ?? 0, repeatsB = c.Why.Split?.Repeats.Second ?? 0,
        parts = c.Why.Split is { } split
            ? SplitText.Parts(split.Why).Select(p => new { cause = p.Cause, seconds = Finite(p.Part.Value), standardUncertainty = Finite(p.Part.Uncertainty), interval95 = new[] { Finite(p.Part.Interval95.Low), Finite(p.Part.Interval95.High) } })
            : null,
        note = c.Why.Split is null ? null : SplitText.Mind,
    };

    private static IEnumerable<string> WhyLines(RunComparison c)
    {
        if (c.Why is { Split: { } split })
        {
            yield return $"  why: {SplitText.Difference(split)}: {string.Join(", ", SplitText.Parts(split.Why).Select(p => SplitText.Of(p.Cause, p.Part)))}";
            yield return $"       ({SplitText.Mind})";
        }
        else if (c.Why is { Reason: { } reason })
        {
            yield return $"  why {SplitReader.Figure} differs or not cannot be told by cause: {reason}";
        }
    }

    private static object Side(RunGroup group) => new { label = group.Label, runs = group.Runs.Select(r => r.Header.Run) };

    private static object Of(RunComparison c, ComparedFigure f) => new
    {
        name = f.Name, unit = f.Unit, against = c.B.Label,
        a = Finite(f.A.Mean), b = Finite(f.B.Mean), valuesA = f.A.Count, valuesB = f.B.Count,
        difference = Finite(f.Difference.Value),
        interval95 = f.Difference.Interval95 is { } i ? new[] { i.Low, i.High } : null,
        chance = Finite(f.Difference.Chance), adjustedChance = Finite(f.Adjusted),
        outcome = f.Verdict switch { Verdict.Changed => "changed", Verdict.Perhaps => "perhaps", Verdict.NoDifference => "no-difference", _ => "unknown" },
        wouldHaveShown = Finite(f.Detectable),
        verdict = VerdictText.Of(f),
    };

    private static double? Finite(double value) => double.IsFinite(value) ? value : null;

    public static void Print(IReadOnlyList<RunComparison> comparisons)
    {
        foreach (RunComparison c in comparisons)
        {
            Console.WriteLine($"{c.A.Label} ({Count(c.A)}) against {c.B.Label} ({Count(c.B)}){(c.A.Simulated ? ", simulated" : "")}");
            foreach (ComparedFigure f in c.Figures.OrderByDescending(f => f.Verdict))
                Console.WriteLine($"  {VerdictText.Of(f)}");
            foreach (ComparedFigure f in c.Figures)
                Console.WriteLine($"  {f.Name,-28} {Shown(f.A, f.Difference),14} {Shown(f.B, f.Difference),14} {f.Unit,-6} difference {Interval(f)}");
            if (c.Figures.Count == 0)
                Console.WriteLine("  no figure is on both sides");
            foreach (string line in WhyLines(c))
                Console.WriteLine(line);
            foreach ((string run, Model.Records.Remark part) in c.Parts)
                Console.WriteLine($"  changed before run {run}: {part.Subject}: {part.Text}");
            foreach (string condition in c.Conditions)
                Console.WriteLine($"  mind: {condition}");
        }
    }

    private static string Shown(ValueGroup group, Difference difference) =>
        Rounding.Of(group.Mean, double.IsNaN(difference.StandardError) ? group.Known : difference.StandardError).Value;

    private static string Interval(ComparedFigure f)
    {
        string value = Rounding.Of(f.Difference.Value, f.Difference.StandardError).Value;
        return f.Difference.Interval95 is { } i
            ? $"{value} (95 %: {Rounding.Of(i.Low, f.Difference.StandardError).Value} to {Rounding.Of(i.High, f.Difference.StandardError).Value})"
            : Rounding.Of(f.Difference.Value, Math.Max(f.A.Known, f.B.Known)).Value;
    }

    private static string Count(RunGroup group) => group.Runs.Count == 1 ? "1 run" : $"{group.Runs.Count} runs";
}
