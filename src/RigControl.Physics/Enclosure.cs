namespace RigControl.Physics;

/// <summary>How fast the parts of the enclosure move.</summary>
/// <param name="ContactorClosing">Coil on to contacts closed, s.</param>
/// <param name="ContactorOpening">Coil off to contacts open, s.</param>
/// <param name="BoltReleasing">Release on to bolt drawn, s.</param>
/// <param name="BoltReturning">Release off to bolt home, s.</param>
public sealed record Enclosure(double ContactorClosing, double ContactorOpening, double BoltReleasing, double BoltReturning);
