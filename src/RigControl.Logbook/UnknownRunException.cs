namespace RigControl.Logbook;

/// <summary>A run was asked for that the logbook does not hold, or by too few letters. The message says what to write.</summary>
public sealed class UnknownRunException(string message) : Exception(message);
