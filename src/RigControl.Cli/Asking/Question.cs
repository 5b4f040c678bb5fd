namespace RigControl.Cli.Asking;

/// <summary>One question of an interview.</summary>
/// <param name="Text">The question itself.</param>
/// <param name="Hint">What to write and where it is known from.</param>
internal sealed record Question(string Text, string Hint)
{
    /// <summary>The words that may be answered; empty where the answer is free.</summary>
    public IReadOnlyList<string> Choices { get; init; } = [];

    /// <summary>What each choice means, as far as its word does not say it.</summary>
    public IReadOnlyDictionary<string, string> Meanings { get; init; } = new Dictionary<string, string>();

    /// <summary>What an empty answer means; null where one has to be given. Never for a limit or for what a controller needs.</summary>
    public string? Usual { get; init; }

    public static Question Of(string text, string hint, params string[] choices) => new(text, hint) { Choices = choices };
}
