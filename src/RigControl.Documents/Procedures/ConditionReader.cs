using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Procedures;
using RigControl.Model.Records;

namespace RigControl.Documents.Procedures;

/// <summary>Reads what ends a step: one condition, or a list of which any does.</summary>
internal static class ConditionReader
{
    private const string Due = "`{ channel: rotor.speed, below: 60 rpm }`, with above, below or steady-within";

    private static readonly Bounds HoldTime = new("s", 0, 3600);

    /// <param name="available">The longest that a condition may have to hold within the step; null where that is not known.</param>
    public static IReadOnlyList<Condition> ReadAll(Node? node, TimeSpan? available, ProblemList problems)
    {
        IReadOnlyList<Node> items = node is ListNode ? WordFields.Items(node, Capacity.Conditions, problems) : node is null ? [] : [node];
        if (node is ListNode && items.Count == 0)
            problems.Add(node.Place, "the list of conditions is empty", $"write {Due}");
        return [.. items.Select(item => Read(item, available, problems)).OfType<Condition>()];
    }

    private static Condition? Read(Node node, TimeSpan? available, ProblemList problems)
    {
        if (Fields.Of(node, "the condition", problems) is not { } fields)
            return null;
        string? channel = WordFields.Channel(fields.Required("channel", "the name of a channel such as `rotor.speed`"), problems);
        Condition? condition = Threshold(fields, channel ?? "");
        TimeSpan held = fields.OptionalTime("for", HoldTime) ?? TimeSpan.Zero;
        fields.Close();
        if (held > available)
            problems.Add(fields.PlaceOf("for"), $"the condition must hold for {Show(held)}, but the step leaves only {Show(available.Value)}",
                "write a shorter `for` or a longer `timeout`");
        if (condition?.Kind == ConditionKind.SteadyWithin && held == TimeSpan.Zero)
            problems.Add(fields.PlaceOf("for"), "any value is steady for no time at all", "write `for:` and a time longer than 0 s");
        return condition is null ? null : condition with { For = held };
    }

    private static Condition? Threshold(Fields fields, string channel)
    {
        Condition?[] written =
        [
            ThresholdReader.Level(fields, channel, ConditionKind.Below),
            ThresholdReader.Level(fields, channel, ConditionKind.Above),
            ThresholdReader.Band(fields, channel),
        ];
        string[] keys = [.. Words<ConditionKind>.All.Where(fields.Has)];
        if (keys.Length == 0)
            fields.Problems.Add(fields.Place, "the condition asks nothing of its channel", "write one of `below:`, `above:` or `steady-within:`");
        if (keys.Length > 1)
            fields.Problems.Add(fields.PlaceOf(keys[1]), $"the condition has {string.Join(" and ", keys)}", "keep one, or make a list of two conditions");
        return written.FirstOrDefault(w => w is not null);
    }

    private static string Show(TimeSpan time) => $"{Quantity.Show(time.TotalSeconds)} s";
}
