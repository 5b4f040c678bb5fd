using System.Globalization;
using System.Text.RegularExpressions;
using RigControl.Documents.Text;

namespace RigControl.Documents.Values;

/// <summary>Reads names, words and whole numbers. A null result means that the problem is already reported, or that the key is left out.</summary>
internal static partial class WordFields
{
    private const string NameDue = "a name of a-z, 0-9 and -";

    /// <summary>A name, <c>[a-z0-9-]</c>, at most 64 characters.</summary>
    public static string? Name(this Fields fields, string key) => Name(fields.Required(key, NameDue), fields.Problems);

    public static string? Name(Node? node, ProblemList problems) =>
        Matching(node, NamePattern(), "is not a name", NameDue, problems);

    /// <summary>A channel's name: names with dots between.</summary>
    public static string? Channel(Node? node, ProblemList problems) =>
        Matching(node, ChannelPattern(), "is not a channel's name", "a name such as `rotor.speed`, of a-z, 0-9, - and dots", problems);

    /// <summary>A list of names, none of them twice; empty where left out and not required.</summary>
    public static IReadOnlyList<string> Names(this Fields fields, string key, int most, bool required = false)
    {
        Node? node = required ? fields.Required(key, "a list of names, or `[]` for none") : fields.Optional(key);
        List<string> names = [];
        foreach (Node item in Items(node, most, fields.Problems))
        {
            if (Name(item, fields.Problems) is not { } name)
                continue;
            if (names.Contains(name))
                fields.Problems.Add(item.Place, $"`{name}` stands in `{key}` twice", "keep one of them");
            names.Add(name);
        }
        return names;
    }

    /// <summary>The items of a list; none, with a problem, where it is something else or too long.</summary>
    public static IReadOnlyList<Node> Items(Node? node, int most, ProblemList problems)
    {
        if (node is TextNode or MapNode)
            problems.Add(node.Place, $"a list is due, but {node.Describe()}", "write `[one, two]`, or one item to a line after `- `");
        if (node is not ListNode list)
            return [];
        if (list.Items.Count > most)
            problems.Add(list.Items[most].Place, $"the list has {list.Items.Count} items", $"keep at most {most}");
        return list.Items;
    }

    /// <summary>One of the words of an enum.</summary>
    public static T? Choice<T>(this Fields fields, string key)
        where T : struct, Enum => Choice<T>(fields.Required(key, Words.Either(Words<T>.All)), fields.Problems);

    public static T? Choice<T>(Node? node, ProblemList problems, params T[] except)
        where T : struct, Enum
    {
        string[] words = [.. Words<T>.All.Except(except.Select(Words.Of))];
        return OneOf(node, words, problems) is { } word ? Words<T>.Find(word) : null;
    }

    /// <summary>One of some words.</summary>
    public static string? OneOf(Node? node, IReadOnlyList<string> words, ProblemList problems)
    {
        if (TextOf(node, Words.Either(words), problems) is not { } text)
            return null;
        if (words.Contains(text))
            return text;
        problems.Add(node!.Place, $"{Words.Quote(text)} is not one of {string.Join(", ", words)}", Words.Instead(text, words));
        return null;
    }

    /// <summary>yes or no.</summary>
    public static bool? Switch(this Fields fields, string key) => Switch(fields.Required(key, "yes or no"), fields.Problems);

    public static bool? Switch(Node? node, ProblemList problems)
    {
        if (TextOf(node, "yes or no", problems) is not { } text)
            return null;
        if (text is "yes" or "no")
            return text == "yes";
        problems.Add(node!.Place, $"{Words.Quote(text)} is neither yes nor no", text switch
        {
            "true" or "on" => "write `yes`",
            "false" or "off" => "write `no`",
            _ => "write yes or no",
        });
        return null;
    }

    /// <summary>A whole number without a unit.</summary>
    public static long? Whole(Node? node, long minimum, long maximum, ProblemList problems)
    {
        string due = $"a whole number from {minimum} to {maximum}";
        if (TextOf(node, due, problems) is not { } text)
            return null;
        if (!long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long value))
            problems.Add(node!.Place, $"{Words.Quote(text)} is not a whole number", $"write {due}");
        else if (value < minimum || value > maximum)
            problems.Add(node!.Place, $"{value} is out of range", $"write {due}");
        else
            return value;
        return null;
    }

    /// <summary>A single value that is not empty.</summary>
    public static string? TextOf(Node? node, string due, ProblemList problems)
    {
        if (node is TextNode { Text.Length: > 0 } text)
            return text.Text;
        if (node is not null and not BrokenNode)
            problems.Add(node.Place, $"a single value is due, but {node.Describe()}", $"write {due}");
        return null;
    }

    private static string? Matching(Node? node, Regex pattern, string fault, string due, ProblemList problems)
    {
        if (TextOf(node, due, problems) is not { } text)
            return null;
        if (pattern.IsMatch(text))
            return text;
        problems.Add(node!.Place, $"{Words.Quote(text)} {fault}", $"write {due}");
        return null;
    }

    [GeneratedRegex(@"^[a-z0-9-]{1,64}\z", RegexOptions.CultureInvariant)]
    private static partial Regex NamePattern();

    [GeneratedRegex(@"^(?=.{1,64}\z)[a-z0-9-]+(\.[a-z0-9-]+)*\z", RegexOptions.CultureInvariant)]
    private static partial Regex ChannelPattern();
}
