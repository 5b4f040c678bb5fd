using System.Globalization;
using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Rig;

namespace RigControl.Documents.Rules;

/// <summary>Reads a file of limits that a builder copied from the rules of an event.</summary>
internal static class RulesReader
{
    private const string SourceDue = "where the limit stands, in quotes";
    private const string DateDue = "the day of the rules it was copied from, such as `2026-05-31`";

    private static readonly Dictionary<RuleKind, Bounds> Ranges = new()
    {
        [RuleKind.ClassMass] = new("kg", 0.01, 1000),
        [RuleKind.TipSpeed] = new("m/s", 0.1, 1000),
        [RuleKind.StoppingTime] = new("s", 0.1, 3600),
        [RuleKind.Voltage] = new("V", 0.1, 1000),
    };

    public static EventRules? Read(Fields fields, ProblemList problems)
    {
        string? name = fields.Name("rules");
        List<RuleLimit> limits = [];
        if (Fields.Of(fields.Required("limits", "the limits, or `{}` for none yet"), "the limits", problems) is { } group)
        {
            foreach (RuleKind kind in Enum.GetValues<RuleKind>())
                limits.AddRange(Limit(kind, group.Optional(Words.Of(kind)), problems));
            group.Close();
        }

        fields.Close();
        return name is null ? null : new(name, limits);
    }

    private static IEnumerable<RuleLimit> Limit(RuleKind kind, Node? node, ProblemList problems)
    {
        if (Fields.Of(node, $"the limit {Words.Of(kind)}", problems) is not { } fields)
            yield break;
        double? value = fields.Quantity("value", Ranges[kind]);
        string? source = WordFields.TextOf(fields.Required("source", SourceDue), SourceDue, problems);
        DateOnly? date = Date(fields.Required("date", DateDue), problems);
        fields.Close();
        if (value is { } v && source is not null && date is { } day)
            yield return new(kind, v, source, day);
    }

    private static DateOnly? Date(Node? node, ProblemList problems)
    {
        if (WordFields.TextOf(node, DateDue, problems) is not { } text)
            return null;
        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date))
            return date;
        problems.Add(node!.Place, $"{Words.Quote(text)} is not a day", $"write {DateDue}");
        return null;
    }
}
