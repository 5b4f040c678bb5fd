using RigControl.Documents.Text;
using RigControl.Documents.Values;
using RigControl.Model.Procedures;

namespace RigControl.Documents.Procedures;

/// <summary>Reads the value that a condition compares with, converted into the unit that the channel is declared in.</summary>
internal static class ThresholdReader
{
    /// <summary>A level to be below or above; null where the key is left out or wrong.</summary>
    public static Condition? Level(Fields fields, string channel, ConditionKind kind)
    {
        string key = Words.Of(kind);
        Node? node = fields.Optional(key);
        if (Written(node, channel, [], fields.Problems) is not { } written)
            return null;
        string unit = UnitOf(channel, written.Unit);
        double value = Units.Convert(written.Value, written.Unit, unit);
        UsualChannel? usual = UsualChannel.Find(channel);
        bool never = kind == ConditionKind.Below ? value <= usual?.Lowest : value >= usual?.Highest;
        if (never)
            fields.Problems.Add(node!.Place, $"{channel} is never {key} {Quantity.Show(value)} {unit}", "write a value that it can pass");
        return new(channel, kind, value, false, TimeSpan.Zero);
    }

    /// <summary>The full width of a band to stay in; null where the key is left out or wrong.</summary>
    public static Condition? Band(Fields fields, string channel)
    {
        Node? node = fields.Optional("steady-within");
        if (Written(node, channel, ["%"], fields.Problems) is not { } written)
            return null;
        if (written.Value <= 0)
            fields.Problems.Add(node!.Place, "the band is empty", "write a width above 0");
        if (written.Unit != "%")
        {
            double width = Units.ConvertDifference(written.Value, written.Unit, UnitOf(channel, written.Unit));
            return new(channel, ConditionKind.SteadyWithin, width, false, TimeSpan.Zero);
        }
        if (written.Value > 100)
            fields.Problems.Add(node!.Place, "the band is wider than the value itself", "write a width of at most `100 %`");
        return new(channel, ConditionKind.SteadyWithin, written.Value / 100, true, TimeSpan.Zero);
    }

    /// <summary>The unit in which a condition on a channel is held.</summary>
    /// <param name="written">The unit that its threshold is written in, a known one.</param>
    public static string UnitOf(string channel, string written) => UsualChannel.Find(channel)?.Unit ?? Units.Canonical(written)!;

    private static Quantity? Written(Node? node, string channel, IReadOnlyList<string> also, ProblemList problems)
    {
        UsualChannel? usual = UsualChannel.Find(channel);
        IReadOnlyList<string> accepted = usual is null ? Units.Symbols : [.. Units.Accepted(usual.Unit), .. also];
        return QuantityFields.Written(node, accepted, usual?.Unit ?? "rpm", problems);
    }
}
