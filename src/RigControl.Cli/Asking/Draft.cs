using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using RigControl.Documents;

namespace RigControl.Cli.Asking;

/// <summary>A commented file as it grows. It knows where each value stands, so that a problem can be told from one that only time will mend.</summary>
internal sealed partial class Draft
{
    private const int CommentColumns = 110;

    private readonly StringBuilder _text = new();
    private readonly List<Place> _values = [];
    private int _line = 1;

    public string Text => _text.ToString();

    /// <summary>The text with one more key, as it would be.</summary>
    public Draft With(int indent, string key, string value, string comment)
    {
        Draft next = new() { _line = _line };
        next._text.Append(_text);
        next._values.AddRange(_values);
        next.Key(indent, key, value, comment);
        return next;
    }

    public void Key(int indent, string key, string value, string comment = "")
    {
        string line = $"{new string(' ', indent)}{key}: {value}";
        bool beside = comment.Length > 0 && line.Length + 3 + comment.Length <= CommentColumns;
        if (comment.Length > 0 && !beside)
            Comment(indent, comment);
        _values.Add(new Place(_line, indent + key.Length + 3));
        Line(beside ? $"{line}  # {comment}" : line);
    }

    /// <summary>Comment lines, broken where they would be too long.</summary>
    public void Comment(int indent, string comment)
    {
        foreach (string line in Lines.Wrap(comment, CommentColumns - indent - 2))
            Line($"{new string(' ', indent)}# {line}");
    }

    public void Line(string text = "")
    {
        _text.Append(text).Append('\n');
        _line++;
    }

    /// <summary>The first problem that lies in a value rather than in what is still missing.</summary>
    public Problem? Spoilt(IReadOnlyList<Problem> problems) =>
        problems.FirstOrDefault(p => _values.Exists(v => v.Line == p.Line && p.Column >= v.Column));

    /// <summary>An answer as YAML; quoted where it could be taken for something else than a single value.</summary>
    public static string Scalar(string answer) => Harmless().IsMatch(answer) ? answer : Quoted(answer);

    public static string Quoted(string answer) => JsonSerializer.Serialize(answer, Unescaped);

    private static readonly JsonSerializerOptions Unescaped = new() { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    [GeneratedRegex(@"^(-?[0-9]|[A-Za-z/])[A-Za-z0-9 .%/+_-]*$", RegexOptions.CultureInvariant)]
    private static partial Regex Harmless();
}
