using System.Globalization;
using RigControl.Analysis.Comparing;
using RigControl.Analysis.Uncertainty;
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
            Console.WriteLine($"{Day(run)}  {run.Run,-10} {Shown(run.Value, point),12}  {Band(point)}{Flag(point)}".TrimEnd());

        Console.WriteLine(Verdict(trend));
    }

    private static string Day(FigurePoint run) => run.StartedAt.UtcDateTime.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    private static string Band(TrendPoint point) => point.Expected is { } e ? $"expected {Shown(e.Low, point)} to {Shown(e.High, point)}" : "";

    // No finer than the band lets anybody see.
    private static string Shown(double value, TrendPoint point) => Rounding.Of(value, point.Expected is { } e ? (e.High - e.Low) / 2 : null).Value;

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
