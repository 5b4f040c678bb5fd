namespace RigControl.Model.Rig;

/// <summary>Between which values a channel stayed in a rehearsal, by step of the procedure and time within the step.</summary>
/// <param name="Channel">Name of the channel.</param>
/// <param name="Stretch">Length of one stretch of time.</param>
/// <param name="Steps">In the order of the procedure's steps; empty lows for a step that energises nothing.</param>
public sealed record RehearsedBand(string Channel, TimeSpan Stretch, IReadOnlyList<BandStep> Steps);

/// <summary>A step's bands: as many lows as highs, one each for every stretch that any sample of the rehearsal reached.</summary>
/// <param name="Low">In the channel's unit.</param>
/// <param name="High">In the channel's unit.</param>
public sealed record BandStep(IReadOnlyList<double> Low, IReadOnlyList<double> High);
