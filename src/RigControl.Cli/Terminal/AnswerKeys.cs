using System.Globalization;
using RigControl.Model.Procedures;

namespace RigControl.Cli.Terminal;

/// <summary>
/// Keys that answer the question of a step. Only in Idle is anything asked, so that ENTER may end a number there; SPACE and ESC
/// stop even then.
/// </summary>
internal sealed class AnswerKeys
{
    // No reading is longer, and a hand resting on a key must not fill the screen.
    private const int LongestNumber = 20;

    private readonly Lock _lock = new();
    private Question? _question;
    private string _typed = "";

    /// <summary>What is asked now; null while nothing is. Set by the scan, read by the screen.</summary>
    public Question? Question
    {
        get => _question;
        set
        {
            if (ReferenceEquals(_question, value))
                return;
            lock (_lock)
                (_question, _typed) = (value, "");
        }
    }

    /// <summary>Question, what may be typed, and what has been.</summary>
    public string Prompt
    {
        get
        {
            lock (_lock)
                return _question is not { } asked ? "" : asked.IsChoice ? $"{asked.Text}   {Choices(asked)}" : $"{asked.Text}, in {asked.Unit}: {_typed}_   ENTER takes it";
        }
    }

    /// <summary>Takes a key that belongs to the question.</summary>
    /// <param name="key">As typed.</param>
    /// <param name="answer">The answer once it is complete.</param>
    /// <returns>Whether the key was meant for the question.</returns>
    public bool Take(char key, out double? answer)
    {
        lock (_lock)
        {
            answer = null;
            return _question is { } asked && (asked.IsChoice ? Choose(asked, key, out answer) : Type(key, out answer));
        }
    }

    private static bool Choose(Question asked, char key, out double? answer)
    {
        int choice = key - '1';
        answer = choice >= 0 && choice < asked.Choices.Count ? choice : null;
        return answer is not null;
    }

    private bool Type(char key, out double? answer)
    {
        answer = null;
        if (char.IsAsciiDigit(key) || key is '.' or '-')
            _typed = _typed.Length < LongestNumber ? _typed + key : _typed;
        else if (key is '\b' or '\u007f')
            _typed = _typed.Length > 0 ? _typed[..^1] : "";
        else if (key is '\r' or '\n')
            answer = Complete();
        else
            return false;
        return true;
    }

    // What is no number goes to the scan as well: it refuses it in the words that it has for every wrong answer.
    private double Complete()
    {
        bool number = double.TryParse(_typed, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out double value);
        _typed = "";
        return number ? value : double.NaN;
    }

    private static string Choices(Question asked) => string.Join("   ", asked.Choices.Select((choice, i) => $"{i + 1} {choice}"));
}
