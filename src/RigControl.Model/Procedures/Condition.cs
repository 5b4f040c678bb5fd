namespace RigControl.Model.Procedures;

/// <summary>When a step has done what it is for.</summary>
/// <param name="Channel">Name of the channel looked at.</param>
/// <param name="Kind">What is asked of it.</param>
/// <param name="Value">Threshold or full band, in the channel's unit; a share of the middle where <paramref name="Relative"/>.</param>
/// <param name="Relative">Whether <paramref name="Value"/> is a share; only for <see cref="ConditionKind.SteadyWithin"/>.</param>
/// <param name="For">How long it must hold without a break.</param>
public sealed record Condition(string Channel, ConditionKind Kind, double Value, bool Relative, TimeSpan For);

/// <summary>What a condition asks of a channel.</summary>
public enum ConditionKind : byte
{
    Below = 0,
    Above = 1,

    /// <summary>Highest minus lowest value stays within the band; leaving the band starts it again.</summary>
    SteadyWithin = 2,
}
