using RigControl.Analysis.Repeats;

namespace RigControl.Cli.Output;

/// <summary>What the repeats of a figure come to, in the JSON of a run and of a trace.</summary>
internal static class RepeatDocument
{
    public static object Of(RepeatedFigure repeated)
    {
        RepeatStatistics s = repeated.Statistics;
        return new
        {
            name = repeated.Name, unit = repeated.Unit, count = s.Count, mean = s.Mean.Value, standardUncertainty = s.Mean.Uncertainty,
            interval95 = new[] { s.Mean.Interval95.Low, s.Mean.Interval95.High },
            // Null where they are not limited.
            freedom = double.IsInfinity(s.Mean.Freedom) ? (double?)null : s.Mean.Freedom,
            scatter = s.Repeatability, within = s.Within, between = s.Between, common = s.Common,
            shared = s.Shared.Select(p => new { name = p.Name, standardUncertainty = p.Uncertainty }),
            drift = s.Drift is { } drift ? new { perRepeat = drift.Value, standardUncertainty = drift.Uncertainty, distinct = s.Drifts } : null,
            standApart = s.Suspicious.Select(i => repeated.Repeats[i].Repeat),
        };
    }
}
