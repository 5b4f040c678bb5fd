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
            "A good 95 % interval holds in 93 to 97 of 100 runs, with a mean error below 0.1 of its width. Wider on purpose: `peak-current`,",
            "`peak-power` and `minimum-voltage` are samples, never means, and their intervals reach from the sample to the level behind it;",
            "`steady-speed` does not count what neighbouring turns share in its favour. The truth of `time-constant` changes within a run, since",
            "the winding warms.",
            "",
        ];
        File.WriteAllLines(Path.Combine(root, page), [.. head, .. Table(tallies)]);
        return page;
    }
}
