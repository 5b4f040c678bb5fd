namespace RigControl.Cli.Asking;

/// <summary>Numbered lines: for pipes, and for terminals that cannot or may not be drawn on.</summary>
/// <param name="input">Where the answers come from, one a line.</param>
/// <param name="output">Where the questions go.</param>
internal sealed class PlainPrompter(TextReader input, TextWriter output, bool canAskAgain) : IPrompter
{
    public bool CanAskAgain { get; } = canAskAgain;

    public void Say(string line) => output.WriteLine(line);

    public string? Ask(int number, Question question)
    {
        output.WriteLine($"{number,2}. {question.Text}");
        foreach (string line in Lines.Wrap(Hint(question), Lines.Width - 4))
            output.WriteLine($"    {line}");
        foreach ((string choice, string means) in question.Meanings)
        {
            foreach (string line in Lines.Wrap($"{choice}: {means}", Lines.Width - 6))
                output.WriteLine($"      {line}");
        }

        output.Write("  > ");
        output.Flush();
        string? answer = input.ReadLine()?.Trim();
        // Only a terminal shows what was typed; a record of piped answers should show it too.
        if (!CanAskAgain)
            output.WriteLine(answer);
        return answer;
    }

    private static string Hint(Question question)
    {
        string words = question.Choices.Count == 0 ? "" : string.Join(", ", question.Choices) + (question.Hint.Length > 0 ? ": " : "");
        return words + question.Hint + (question.Usual is { } usual ? $" [nothing: {usual}]" : "");
    }
}
