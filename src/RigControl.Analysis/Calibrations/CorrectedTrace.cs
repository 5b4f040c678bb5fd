using RigControl.Analysis.Traces;

namespace RigControl.Analysis.Calibrations;

/// <summary>A trace as its calibrations correct it, for what is shown beside the figures.</summary>
public static class CorrectedTrace
{
    /// <summary>Channels without a calibration in their own unit stay as they are.</summary>
    public static Trace Of(Trace trace, IReadOnlyDictionary<string, Calibration> calibrations) => trace with
    {
        Channels = trace.Channels.ToDictionary(c => c.Key, c => calibrations.GetValueOrDefault(c.Key) is { } known && known.Unit == c.Value.Unit ? known.Correct(c.Value) : c.Value),
    };
}
