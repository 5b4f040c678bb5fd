namespace RigControl.Rehearsal.Runaway;

/// <summary>An over-speed cut of the power that was provoked and seen.</summary>
/// <param name="Limit">Speed at which it acts, rpm.</param>
/// <param name="Reaction">Longest time, of all that the verification let pass, from the speed to the power being off.</param>
public sealed record OverSpeedCut(double Limit, TimeSpan Reaction);
