namespace RigControl.Model.Rig;

/// <summary>What stands in for the failsafe proof while it is being got. Declared by the builder; there is no default.</summary>
/// <param name="Throttle">Level that the verification turns the article with and never exceeds, as a share above 0 and at most 1.</param>
/// <param name="Speed">Speed in either direction above which the power is cut, rpm.</param>
public sealed record VerificationCeiling(double Throttle, double Speed);
