namespace RigControl.Model.Signals;

/// <summary>One reading of one channel, already calibrated and rounded to the channel's resolution.</summary>
/// <param name="Channel">Index of the channel in the rig's channel list.</param>
/// <param name="Quality">How far the value can be trusted.</param>
/// <param name="At">Host time of the reading, since the session's clock started.</param>
/// <param name="Value">In the channel's unit. Not finite only when the quality is Bad.</param>
public readonly record struct Sample(ushort Channel, Quality Quality, TimeSpan At, double Value);
