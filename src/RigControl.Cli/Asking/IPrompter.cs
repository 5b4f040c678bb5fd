namespace RigControl.Cli.Asking;

/// <summary>Puts questions to whoever answers them.</summary>
internal interface IPrompter
{
    /// <summary>Whether a wrong answer can be given again: by a person, not by a file.</summary>
    bool CanAskAgain { get; }

    /// <summary>Says something that needs no answer.</summary>
    void Say(string line);

    /// <summary>The answer without blanks around it; null when the input has ended.</summary>
    /// <param name="number">From 1.</param>
    string? Ask(int number, Question question);
}
