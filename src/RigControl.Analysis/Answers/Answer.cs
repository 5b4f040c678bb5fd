namespace RigControl.Analysis.Answers;

/// <summary>What a person answered to the question of a step.</summary>
/// <param name="Name">Of the question.</param>
/// <param name="Value">In <paramref name="Unit"/>; of a trial 1 for passed and 0 for failed.</param>
/// <param name="Unit">Canonical unit of its kind; empty for a trial or a choice.</param>
/// <param name="Resolution">Smallest difference that the instrument shows, in <paramref name="Unit"/>.</param>
public sealed record Answer(string Name, AnswerKind Kind, double Value, string Unit, double Resolution);

/// <summary>What was asked for.</summary>
public enum AnswerKind : byte
{
    /// <summary>One of several words; no figure is made of it.</summary>
    Choice,
    Reading,
    Trial,
}
