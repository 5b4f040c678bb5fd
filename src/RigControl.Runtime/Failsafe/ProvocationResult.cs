using System.Text.Json.Serialization;

namespace RigControl.Runtime.Failsafe;

/// <summary>What one step of a verification came to.</summary>
/// <param name="Name">Of the provocation or observation.</param>
/// <param name="Stage">1 contacts, 2 pulses without power, 3 turning.</param>
/// <param name="Expected">What was to be seen, in words.</param>
/// <param name="Seen">What was seen, in words.</param>
/// <param name="Reaction">From the provocation to its first sign, s; null where none was measured.</param>
/// <param name="Allowed">Longest reaction that passes, s; null where none is measured.</param>
/// <param name="Passed">Whether everything expected was seen in time and nothing else, and every sign showed something.</param>
/// <param name="OnWord">Whether it rests on the operator's word.</param>
public sealed record ProvocationResult(string Name, int Stage, string Expected, string Seen, double? Reaction, double? Allowed, bool Passed, bool OnWord)
{
    /// <summary>What marks one that rests on the operator's word, wherever a person reads it.</summary>
    public const string WordMark = ", on the operator's word";

    /// <summary>From the provocation until the power read off, s; null where it was not seen to go off, or had not to.</summary>
    public double? PowerGone { get; init; }

    /// <summary>Longest time until then that passes, s; null where none is measured.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? PowerAllowed { get; init; }

    /// <summary>What a sign that passed does not show, a sentence; null where there is nothing to say.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Reserve { get; init; }
}
