namespace RigControl.Analysis.Traces;

/// <summary>Every channel of a run, and where its repeats lie in time.</summary>
/// <param name="Channels">By name.</param>
/// <param name="Segments">One per repeat that rose, in order.</param>
public sealed record Trace(IReadOnlyDictionary<string, Series> Channels, IReadOnlyList<Segment> Segments)
{
    public Series? Find(string channel) => Channels.GetValueOrDefault(channel) is { Count: > 0 } series ? series : null;
}

/// <summary>One repeat of a procedure, all times in s from the start of the run; not a number where it never came to that.</summary>
/// <param name="Repeat">From 1.</param>
/// <param name="RiseAt">The output begins to rise.</param>
/// <param name="HoldAt">The level is held.</param>
/// <param name="ReleaseAt">Stop output.</param>
/// <param name="EndAt">The rotor has come to rest, or the record ends.</param>
public sealed record Segment(int Repeat, double RiseAt, double HoldAt, double ReleaseAt, double EndAt)
{
    /// <summary>The rise came at most this much before <see cref="RiseAt"/>, s: 0 where an event tells it, the time between samples where one does.</summary>
    public double RiseStep { get; init; }

    /// <summary>The same for <see cref="ReleaseAt"/>.</summary>
    public double ReleaseStep { get; init; }
}
