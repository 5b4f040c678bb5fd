using RigControl.Analysis.Traces;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Cli.Reporting;

/// <summary>The channels of a recorded run over time.</summary>
internal static class RunSeries
{
    /// <summary>By name. Bad samples are left out.</summary>
    public static IReadOnlyDictionary<string, Series> Read(LogbookFile book, RunHeader header) => Reckoning.TraceOf(book, header, []).Channels;

    // What a builder looks at first; the rest is asked for by name.
    private static readonly string[] Usual =
    [
        ChannelNames.RotorSpeed, ChannelNames.OutputThrottle, ChannelNames.BatteryCurrent, ChannelNames.BatteryVoltage,
        ChannelNames.MotorTemperature, ChannelNames.ControllerTemperature, ChannelNames.BatteryTemperature, "force", ChannelNames.Vibration,
    ];

    /// <summary>The usual channels that a run has; where it has none, all of it.</summary>
    public static IReadOnlyList<string> UsualOf(IReadOnlyDictionary<string, Series> series)
    {
        string[] usual = [.. Usual.Where(n => series.TryGetValue(n, out Series? s) && s.Count > 0)];
        return usual.Length > 0 ? usual : [.. series.Where(s => s.Value.Count > 0).Select(s => s.Key).Take(12)];
    }
}
