using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Rig;

namespace RigControl.Documents.Rigs;

/// <summary>Reads the options of a plugin against its own description of them.</summary>
internal static class OptionReader
{
    /// <summary>Every option by name, resolved: double in the option's unit, long, bool or string.</summary>
    /// <param name="owner">Where to report a missing option when there is no group of options at all.</param>
    public static IReadOnlyDictionary<string, object> Read(PluginKind kind, Node? node, Place owner, ProblemList problems)
    {
        Dictionary<string, object> resolved = [];
        Node group = node is null or TextNode { IsNothing: true } ? new MapNode(node?.Place ?? owner, []) : node;
        if (Fields.Of(group, kind.Name, problems) is not { } fields)
            return resolved;
        foreach (OptionDescription option in kind.Options)
        {
            Node? written = option.Default is null ? fields.Required(option.Name, Due(option)) : fields.Optional(option.Name);
            object? value = written is null ? Default(option) : Value(option, written, problems);
            if (value is not null)
                resolved[option.Name] = value;
        }
        fields.Close();
        return resolved;
    }

    private static object? Value(OptionDescription option, Node node, ProblemList problems) => option.Kind switch
    {
        OptionKind.Quantity => QuantityFields.Read(node, Range(option), problems),
        OptionKind.Count => WordFields.Whole(node, (long)option.Minimum, (long)option.Maximum, problems),
        OptionKind.Switch => WordFields.Switch(node, problems),
        OptionKind.Channel => WordFields.Channel(node, problems),
        OptionKind.Choice => WordFields.OneOf(node, option.Choices, problems),
        _ => WordFields.TextOf(node, "a text", problems),
    };

    // A plugin states its default in whatever number type its property has.
    private static object? Default(OptionDescription option) => (option.Kind, option.Default) switch
    {
        (_, null) => null,
        (OptionKind.Quantity, var value) => Convert.ToDouble(value, null),
        (OptionKind.Count, var value) => Convert.ToInt64(value, null),
        (_, var value) => value,
    };

    private static string Due(OptionDescription option) => option.Kind switch
    {
        OptionKind.Quantity => $"a value {Range(option)} ({option.Meaning.TrimEnd('.')})",
        OptionKind.Count => $"a whole number from {option.Minimum} to {option.Maximum} ({option.Meaning.TrimEnd('.')})",
        OptionKind.Switch => $"yes or no ({option.Meaning.TrimEnd('.')})",
        OptionKind.Choice => $"{Words.Either(option.Choices)} ({option.Meaning.TrimEnd('.')})",
        _ => $"a value ({option.Meaning.TrimEnd('.')})",
    };

    private static Bounds Range(OptionDescription option) => new(option.Unit ?? "1", option.Minimum, option.Maximum);
}
