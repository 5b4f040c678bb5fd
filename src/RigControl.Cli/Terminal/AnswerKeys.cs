using System.Globalization;
using RigControl.Model.Procedures;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Terminal;

/// <summary>
/// Keys that answer the question of a step, or add a note to it. Only in Idle is anything asked, so that ENTER may end a number
/// there. ESC stops even then, and SPACE as well, except within a note, which has words. A note that is being written when the
/// question goes is written to its ENTER: its letters must never become acts.
/// </summary>
internal sealed class AnswerKeys
{
    // No reading is longer, and a hand resting on a key must not fill the screen.
    private const int LongestNumber = 20;

    private readonly Lock _lock = new();
    private Question? _question;
    private string _typed = "";
    private bool _noting;

    /// <summary>What is asked now; null while nothing is. Set by the scan, read by the screen.</summary>
    public Question? Question
    {
        get => _question;
        set
        {
            if (ReferenceEquals(_question, value))
                return;
            lock (_lock)
                (_question, _typed) = (value, _noting ? _typed : "");
        }
    }

    /// <summary>Question, what may be typed, and what has been.</summary>
    public string Prompt
    {
        get
        {
            lock (_lock)
            {
                return _noting ? $"note: {_typed}_ | ENTER keeps it | {(_question is null ? "SPACE and ESC stop" : "ESC stops")}"
                    : _question is not { } asked ? ""
                    : asked.IsChoice ? $"{asked.Text} | {Choices(asked)} | n note"
                    : $"{asked.Text}, in {asked.Unit}: {_typed}_ | ENTER takes it | n note";
            }
        }
    }

    /// <summary>Takes a key that belongs to the question.</summary>
    /// <param name="key">As typed.</param>
    /// <param name="answer">The answer once it is complete.</param>
    /// <param name="note">The note once it is complete.</param>
    /// <returns>Whether the key was meant for the question.</returns>
    public bool Take(char key, out double? answer, out string? note)
    {
        lock (_lock)
        {
            (answer, note) = (null, null);
            if (_noting)
                return Write(key, out note);
            if (_question is not { } asked)
                return false;
            if (key is 'n' or 'N')
            {
                (_noting, _typed) = (true, "");
                return true;
            }

            return asked.IsChoice ? Choose(asked, key, out answer) : Type(key, out answer);
        }
    }

    private bool Write(char key, out string? note)
    {
        note = null;
        if (key is '\b' or '\u007f')
            _typed = _typed.Length > 0 ? _typed[..^1] : "";
        else if (key is '\r' or '\n')
            (note, _typed, _noting) = (_typed, "", false);
        else if (!char.IsControl(key) && !(key == ' ' && _question is null))
            _typed = _typed.Length < RunSession.LongestNote ? _typed + key : _typed;
        else
            return false;
        return true;
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

    private static string Choices(Question asked) => string.Join(" | ", asked.Choices.Select((choice, i) => $"{i + 1} {choice}"));
}
