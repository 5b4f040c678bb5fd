namespace RigControl.Model.Procedures;

/// <summary>What a person is asked in a step: a reading with a unit, or a choice.</summary>
/// <param name="Name">Under which the answer is recorded.</param>
/// <param name="Text">The question as it is shown.</param>
/// <param name="Unit">Unit of a reading; empty for a choice.</param>
/// <param name="Lowest">Lowest answer taken, in the unit; for a choice 0.</param>
/// <param name="Highest">Highest answer taken, in the unit; for a choice the number of the last one.</param>
/// <param name="Resolution">Smallest difference that the instrument shows, in the unit; for a choice 1.</param>
/// <param name="Choices">What can be chosen, numbered from 0; empty for a reading.</param>
public sealed record Question(string Name, string Text, string Unit, double Lowest, double Highest, double Resolution, IReadOnlyList<string> Choices)
{
    /// <summary>Most choices, so that each has a key of its own.</summary>
    public const int MostChoices = 9;

    /// <summary>What a trial can come to, in this order.</summary>
    public static readonly IReadOnlyList<string> Trial = ["passed", "failed"];

    public bool IsChoice => Choices.Count > 0;

    /// <summary>Whether an answer may be taken.</summary>
    public bool Takes(double answer) => answer >= Lowest && answer <= Highest && (!IsChoice || answer == Math.Floor(answer));
}
