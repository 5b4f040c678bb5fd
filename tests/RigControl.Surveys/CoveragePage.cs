using System.Globalization;

namespace RigControl.Surveys;

/// <summary>Keeps a survey as docs/evidence/coverage.md.</summary>
public static class CoveragePage
{
    /// <summary>Rows of a table: how often the interval holds, how far the values lie off, how wide the interval is.</summary>
    public static IEnumerable<string> Table(IReadOnlyList<Tally> tallies)
    {
        yield return "| figure | runs with a value | with a reason | intervals that hold the truth | mean error, share of the interval | median width, share of the truth |";
        yield return "|---|---|---|---|---|---|";
        foreach (Tally t in tallies)
            yield return string.Create(CultureInfo.InvariantCulture, $"| {t.Name} | {t.Values} | {t.Reasons} | {t.Coverage:0.0} % | {t.Bias:+0.000;-0.000} | {t.Width:0.###} % |");
    }

    /// <summary>Writes the page of the repository that the program runs in. Returns its path from there.</summary>
    /// <param name="others">The same of other rows of runs, by their first seed.</param>
    public static string Write(IReadOnlyList<Tally> tallies, int runs, ulong first, IReadOnlyList<(ulong First, IReadOnlyList<Tally> Tallies)> others)
    {
        string root = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(root, "RigControl.sln")))
            root = Path.GetDirectoryName(root) ?? throw new InvalidOperationException("run this from a checkout");
        string page = Path.Combine("docs", "evidence", "coverage.md");
        string[] head =
        [
            "# How often an interval holds the truth",
            "",
            $"Written by `dotnet run -c Release --project tests/RigControl.Surveys -- {runs} {first} --evidence` on {DateTime.UtcNow:yyyy-MM-dd}.",
            "Every run is drawn by chance on the modelled bench (inertia, drag, motor, pack, level, ramp) and watched by sensors with noise,",
            "steps, jitter of the sampling moment, lost samples and a gap. The truth is the bench's own. A wrong scale of a sensor is not among",
            "the errors: no record can show it, and a calibration has to.",
            "",
            "A good 95 % interval holds in 93 to 97 of 100 runs, with a mean error below 0.1 of its width. Of `time-constant`, what is known of",
            "pack and winding beforehand is part, and no run corrects it.",
            "",
            $"From seed {first}: {Judgement(tallies)}",
            .. others.Select(o => $"From seed {o.First}, as many: {Judgement(o.Tallies)}"),
            "",
            "Heat is told from longer records, a pack loaded for minutes and left to cool, and `stall-current` from the same bench with its rotor",
            "held; `inertia` from the run's own coast-down and that of the same bench with a ring, whose inertia is declared to half a percent.",
            "`mass`, `success-rate` and the mean of repeats need no bench: they are drawn as their readings come. For `no-load-current` the motor",
            "is taken for bare: its rotor's drag is then its own.",
            "",
            "The winding warms while it is looked at, by an amount that no speed shows. The truth of `time-constant` is the mean over the rise, each",
            "moment counted by its current; that of `winding-resistance` the mean over the held level, each moment counted by its heat.",
            "",
        ];
        File.WriteAllLines(Path.Combine(root, page), [.. head, .. Table(tallies)]);
        return page;
    }

    private static string Judgement(IReadOnlyList<Tally> tallies)
    {
        string[] outside = [.. tallies.Where(t => t.Coverage is not (>= 93 and <= 97) || !(Math.Abs(t.Bias) < 0.1)).Select(t => $"`{t.Name}`")];
        string span = string.Create(CultureInfo.InvariantCulture,
            $"{tallies.Min(t => t.Coverage):0.0} % to {tallies.Max(t => t.Coverage):0.0} %, mean errors up to {tallies.Max(t => Math.Abs(t.Bias)):0.000}");
        return outside.Length == 0 ? $"all {tallies.Count} figures are inside ({span})." : $"outside are {string.Join(", ", outside)} ({span}).";
    }
}
