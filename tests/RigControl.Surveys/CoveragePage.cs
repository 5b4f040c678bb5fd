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
    public static string Write(IReadOnlyList<Tally> tallies, int runs, ulong first)
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
            "A good 95 % interval holds in 93 to 97 of 100 runs, with a mean error below 0.1 of its width. Outside it are `peak-current`,",
            "`peak-power` and `minimum-voltage`: they are samples, never means, so that their intervals reach from the sample to the level behind it,",
            "and the lowest of many samples that scatter lies below the truth. A little wide are `steady-speed` and `time-constant`; of the latter,",
            "what is known of pack and winding beforehand is part, and no run corrects it.",
            "",
            "The winding warms while it is looked at, by an amount that no speed shows. The truth of `time-constant` is the mean over the rise, each",
            "moment counted by its current; that of `winding-resistance` the mean over the held level, each moment counted by its heat.",
            "",
        ];
        File.WriteAllLines(Path.Combine(root, page), [.. head, .. Table(tallies)]);
        return page;
    }
}
