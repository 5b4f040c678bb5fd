namespace RigControl.Documents.Traces;

/// <summary>A trace as a file holds it, each channel in the canonical unit of its kind.</summary>
public sealed record RecordedTrace(IReadOnlyList<RecordedChannel> Channels);

/// <summary>One column: the samples that it holds, without its empty cells.</summary>
/// <param name="Unit">Canonical unit of its kind, such as rpm for rad/s.</param>
/// <param name="Times">s, rising strictly.</param>
/// <param name="Values">In <paramref name="Unit"/>, finite, as many as <paramref name="Times"/>.</param>
public sealed record RecordedChannel(string Name, string Unit, double[] Times, double[] Values);
