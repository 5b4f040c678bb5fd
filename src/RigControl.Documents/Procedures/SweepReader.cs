using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Procedures;

namespace RigControl.Documents.Procedures;

/// <summary>
/// Reads a sweep: one item of the file that stands for a spin-up and a hold at each of its levels. So whatever holds for these
/// two, the warning before a rise included, holds for a sweep.
/// </summary>
internal static class SweepReader
{
    public const string Key = "sweep";

    // Every level becomes two steps, and two sweeps have room in one procedure.
    private const int MostLevels = 30;

    /// <returns>Two steps a level; none where the levels cannot be read.</returns>
    public static IReadOnlyList<Step> Read(Fields fields)
    {
        IReadOnlyList<double> levels = Levels(fields);
        TimeSpan? ramp = fields.Time("ramp", StepReader.Ramp);
        TimeSpan? hold = fields.Time("hold", StepReader.Duration);
        TimeSpan? timeout = fields.Time("timeout", StepReader.Duration);
        if (ramp >= timeout)
            fields.Problems.Add(fields.PlaceOf("ramp"), "the ramp is not over before the rise times out", "write a shorter `ramp` or a longer `timeout`");
        IReadOnlyList<Condition> until = ConditionReader.ReadAll(fields.Optional("until"), ramp < timeout ? timeout - ramp : null, fields.Problems);
        return [.. levels.SelectMany(level => Pair(level, ramp ?? default, hold ?? default, timeout ?? default, until))];
    }

    private static IReadOnlyList<double> Levels(Fields fields)
    {
        Node? node = fields.Required("throttle", "a list of levels such as `[20 %, 40 %, 60 %]`");
        IReadOnlyList<Node> items = WordFields.Items(node, MostLevels, fields.Problems);
        if (node is ListNode && items.Count == 0)
            fields.Problems.Add(node.Place, "the sweep has no level", "write levels such as `[20 %, 40 %, 60 %]`");
        List<double> levels = [];
        foreach (Node item in items.Take(MostLevels))
        {
            double? level = QuantityFields.Read(item, StepReader.Throttle, fields.Problems);
            if (level == 0)
                fields.Problems.Add(item.Place, "a level of no throttle does not turn", "leave it out, or end the sweep before it with a coast-down");
            if (level is not null)
                levels.Add(level.Value / 100);
        }
        return levels;
    }

    private static Step[] Pair(double level, TimeSpan ramp, TimeSpan hold, TimeSpan timeout, IReadOnlyList<Condition> until) =>
    [
        new() { Kind = StepKind.SpinUp, Throttle = level, Ramp = ramp, Until = until, Timeout = timeout },
        new() { Kind = StepKind.Hold, Throttle = level, For = hold, Timeout = hold + StepReader.Grace },
    ];
}
