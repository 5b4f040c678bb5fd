using RigControl.Analysis.Traces;
using RigControl.Cli.Comparing;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Reports.Plots;

namespace RigControl.Cli.Reporting;

/// <summary>The first rise of the last run of each side, over one time, for the report of a comparison.</summary>
internal static class RiseReader
{
    // Before the rise, s: enough to see from where it begins.
    private const double Before = 0.2;

    // After it, s: enough to see where to.
    private const double After = 1;

    private static readonly string[] Channels = [ChannelNames.RotorSpeed, ChannelNames.BatteryCurrent, ChannelNames.BatteryVoltage];

    /// <summary>Empty where a side has no rise that was recorded.</summary>
    public static IReadOnlyList<Panel> Read(LogbookFile book, RunComparison compared)
    {
        RunRecord first = compared.A.Runs[^1], second = compared.B.Runs[^1];
        if (RiseOf(first) is not { } a || RiseOf(second) is not { } b)
            return [];
        IReadOnlyDictionary<string, Series> ofFirst = RunSeries.Read(book, first.Header), ofSecond = RunSeries.Read(book, second.Header);
        List<(string, Series)> lines = [];
        foreach (string channel in Channels.Where(c => ofFirst.ContainsKey(c) && ofSecond.ContainsKey(c)))
        {
            lines.Add(($"{channel}, {compared.A.Label}", Within(ofFirst[channel], a)));
            lines.Add(($"{channel}, {compared.B.Label}", Within(ofSecond[channel], b)));
        }

        return Panel.Of(lines);
    }

    // From the first rise until it is over or the output is off again, s.
    private static (double From, double To)? RiseOf(RunRecord run)
    {
        RigEvent[] entered = [.. run.Events.Where(e => e.Name == EventNames.StateEntered)];
        int rise = Array.FindIndex(entered, e => e.Subject == "SpinUp");
        if (run.PrunedAt is not null || rise < 0)
            return null;
        RigEvent? over = entered.ElementAtOrDefault(rise + 1);
        return (entered[rise].At.TotalSeconds, over is null ? double.PositiveInfinity : over.At.TotalSeconds + After);
    }

    private static Series Within(Series series, (double From, double To) span)
    {
        Series rise = series.Between(span.From - Before, span.To);
        return rise with { Times = [.. rise.Times.Select(t => t - span.From)] };
    }
}
