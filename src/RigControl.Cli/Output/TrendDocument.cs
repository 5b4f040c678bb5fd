using System.Globalization;
using RigControl.Analysis.Comparing;
using RigControl.Cli.Comparing;
using RigControl.Logbook;

namespace RigControl.Cli.Output;

/// <summary>A trend as JSON and as text.</summary>
internal static class TrendDocument
{
    public static object Of(RunTrend trend) => new
    {
        figure = trend.Figure, article = trend.Article, unit = trend.Unit, simulated = trend.Simulated,
        points = trend.Points.Select(p => new
        {
            run = p.Run.Run, startedAt = p.Run.StartedAt.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture), value = p.Run.Value,
            expected = p.Point.Expected is { } e ? new[] { e.Low, e.High } : null, outside = p.Point.Outside, creeping = p.Point.Creeping,
        }),
        verdict = Verdict(trend),
    };

    public static void Print(RunTrend trend)
    {
        Console.WriteLine($"{trend.Figure} of {trend.Article}, {trend.Unit}{(trend.Simulated ? ", simulated" : "")}");
        foreach ((FigurePoint run, TrendPoint point) in trend.Points)
        {
            string band = point.Expected is { } e ? string.Create(CultureInfo.InvariantCulture, $"expected {e.Low:0.####} to {e.High:0.####}") : "";
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{run.StartedAt.UtcDateTime:yyyy-MM-dd HH:mm}  {run.Run,-10} {run.Value,12:0.####}  {band}{Flag(point)}").TrimEnd());
        }

        Console.WriteLine(Verdict(trend));
    }

    private static string Flag(TrendPoint point) => (point.Outside ? "  OUTSIDE" : "") + point.Creeping switch { > 0 => "  CREEPING UP", < 0 => "  CREEPING DOWN", _ => "" };

    private static string Verdict(RunTrend trend)
    {
        TrendPoint last = trend.Points[^1].Point;
        if (last.Expected is null)
            return "fewer than four values: what to expect is not known yet";
        if (last.Creeping != 0)
            return $"{trend.Figure} has been creeping {(last.Creeping > 0 ? "up" : "down")} for longer than chance explains: look for what wears";
        return last.Outside ? $"the last {trend.Figure} is outside of what the runs before lead to expect" : $"the last {trend.Figure} is as expected";
    }
}
