using RigControl.Cli.Terminal;
using Spectre.Console;

namespace RigControl.Cli.Asking;

/// <summary>Questions on a terminal that can be drawn on: words are picked with the arrow keys, the rest is typed.</summary>
internal sealed class TerminalPrompter : IPrompter
{
    // Results go to standard output, so that questions go beside them.
    private readonly IAnsiConsole _console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Console.Error) });

    public bool CanAskAgain => true;

    public void Say(string line)
    {
        foreach (string part in Lines.Wrap(line, Width))
            _console.MarkupLine($"[bold]{Markup.Escape(part)}[/]");
    }

    public string? Ask(int number, Question question)
    {
        _console.WriteLine();
        _console.MarkupLine($"[bold]{number,2}. {Markup.Escape(question.Text)}[/]");
        foreach (string line in Lines.Wrap(question.Hint, Width - 4))
            _console.MarkupLine($"    [grey]{Markup.Escape(line)}[/]");
        return question.Choices.Count > 0 ? Pick(question) : Type(question);
    }

    private int Width => Math.Min(_console.Profile.Width, Lines.Width);

    private string Pick(Question question)
    {
        int longest = question.Choices.Max(c => c.Length);
        SelectionPrompt<string> prompt = new()
        {
            Mode = SelectionMode.Leaf, PageSize = 14, WrapAround = true,
            Converter = choice => Markup.Escape(question.Meanings.TryGetValue(choice, out string? means) ? Line.Fit($"{choice.PadRight(longest)}  {means}", Width - 4) : choice),
        };
        prompt.AddChoices(question.Choices.Append(Interview.Back));
        string answer = _console.Prompt(prompt);
        _console.MarkupLine($"  > {Markup.Escape(answer)}");
        return answer;
    }

    private string Type(Question question)
    {
        string usual = question.Usual is { } text ? $" [grey]({Markup.Escape(text)})[/]" : "";
        return _console.Prompt(new TextPrompt<string>($" {usual} >") { AllowEmpty = true }).Trim();
    }
}
