using RigControl.Documents;

namespace RigControl.Cli.Asking;

/// <summary>
/// Asks for a file, key by key. Each answer is judged by the same reading that <c>check</c> uses, on the file as far as it has
/// come. The script that asks is a function of the answers: to go back one question, it is run again with the last one left out.
/// </summary>
/// <param name="check">Every problem of a text.</param>
internal sealed class Interview(IPrompter prompter, Func<string, IReadOnlyList<Problem>> check)
{
    /// <summary>The answer that returns to the question before.</summary>
    public const string Back = "back";

    private readonly List<string> _answers = [];
    private int _next;

    public Draft Draft { get; private set; } = new();

    /// <summary>Runs the script until it has asked everything, and returns the file.</summary>
    /// <exception cref="CliException">The input has ended, or an answer from a pipe is wrong.</exception>
    public Draft Run(Action<Interview> script)
    {
        while (true)
        {
            (Draft, _next) = (new Draft(), 0);
            try
            {
                script(this);
                return Draft;
            }
            catch (WantsBackException)
            {
                if (_answers.Count > 0)
                    _answers.RemoveAt(_answers.Count - 1);
            }
        }
    }

    /// <summary>Asks for the value of a key and writes it.</summary>
    public string Value(int indent, string key, Question question, string comment = "") => Written(indent, key, question, comment, Draft.Scalar);

    /// <summary>Asks for a text of any words and writes it in quotes.</summary>
    public string Text(int indent, string key, Question question, string comment = "") => Written(indent, key, question, comment, Draft.Quoted);

    /// <summary>Asks for a list of names with commas between and writes it.</summary>
    public IReadOnlyList<string> List(int indent, string key, Question question, string comment = "") =>
        Split(Written(indent, key, question, comment, a => $"[{string.Join(", ", Split(a).Select(Draft.Scalar))}]"));

    /// <summary>Asks what stands in no key of its own.</summary>
    public string Choose(Question question) =>
        Answer(question, a => question.Choices.Contains(a) ? null : $"write {string.Join(" or ", question.Choices)}");

    public bool Confirm(string text, string hint = "") => Choose(Question.Of(text, hint, "yes", "no")) == "yes";

    /// <exception cref="CliException">The file as a whole is not in order, with every problem.</exception>
    public void RequireInOrder()
    {
        IReadOnlyList<Problem> problems = check(Draft.Text);
        if (problems.Count > 0)
            throw new CliException(ExitCode.BadInput, [.. problems.Select(p => p.ToString()), "these answers do not go together; nothing was written"]);
    }

    private string Written(int indent, string key, Question question, string comment, Func<string, string> write)
    {
        string answer = Answer(question, a => Draft.With(indent, key, write(a), comment) is var next && next.Spoilt(check(next.Text)) is { } problem
            ? $"{problem.What}; {problem.Remedy}"
            : null);
        Draft.Key(indent, key, write(answer), comment);
        return answer;
    }

    /// <param name="objection">What is wrong with an answer and what to write instead; null when it will do.</param>
    private string Answer(Question question, Func<string, string?> objection)
    {
        if (_next < _answers.Count)
            return _answers[_next++];
        while (true)
        {
            string given = prompter.Ask(_next + 1, question)
                ?? throw new CliException(ExitCode.BadInput, $"the answers ended at question {_next + 1}, {question.Text} Nothing was written.");
            if (given == Back)
                throw new WantsBackException();
            string? answer = given.Length > 0 ? given : question.Usual;
            string? wrong = answer is null ? "an answer is due here" : objection(answer);
            if (wrong is null)
                return Keep(answer!);
            if (!prompter.CanAskAgain)
                throw new CliException(ExitCode.BadInput, $"question {_next + 1}, {question.Text} {wrong}. Nothing was written.");
            prompter.Say($"    {wrong}. `{Back}` returns to the question before.");
        }
    }

    private string Keep(string answer)
    {
        _answers.Add(answer);
        _next++;
        return answer;
    }

    private static string[] Split(string answer) => answer == "none" ? [] : answer.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);

    private sealed class WantsBackException : Exception;
}
