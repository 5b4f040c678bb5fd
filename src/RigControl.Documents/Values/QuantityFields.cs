using RigControl.Documents.Text;

namespace RigControl.Documents.Values;

/// <summary>Reads numbers with units. A null result means that the problem is already reported, or that the key is left out.</summary>
internal static class QuantityFields
{
    // More units than these nobody reads in a sentence.
    private const int MostListed = 6;

    public static double? Quantity(this Fields fields, string key, Bounds bounds) =>
        Read(fields.Required(key, $"a value {bounds}"), bounds, fields.Problems);

    public static double? OptionalQuantity(this Fields fields, string key, Bounds bounds) =>
        Read(fields.Optional(key), bounds, fields.Problems);

    /// <param name="bounds">In s.</param>
    public static TimeSpan? Time(this Fields fields, string key, Bounds bounds) => AsTime(fields.Quantity(key, bounds));

    /// <param name="bounds">In s.</param>
    public static TimeSpan? OptionalTime(this Fields fields, string key, Bounds bounds) => AsTime(fields.OptionalQuantity(key, bounds));

    /// <summary>A value converted into the unit of its bounds and found within them.</summary>
    public static double? Read(Node? node, Bounds bounds, ProblemList problems)
    {
        if (Written(node, Units.Accepted(bounds.Unit), bounds.Unit, problems) is not { } written)
            return null;
        double value = written.Unit == bounds.Unit ? written.Value : Units.Convert(written.Value, written.Unit, bounds.Unit);
        if (bounds.Hold(value))
            return value;
        problems.Add(node!.Place, $"{Words.Quote(((TextNode)node).Text)} is out of range", $"write a value {bounds}");
        return null;
    }

    /// <summary>A number with one of some units, not yet converted.</summary>
    /// <param name="usual">The unit to name where none is written.</param>
    public static Quantity? Written(Node? node, IReadOnlyList<string> accepted, string usual, ProblemList problems)
    {
        if (WordFields.TextOf(node, $"a number in {usual}", problems) is not { } text)
            return null;
        if (Values.Quantity.Parse(text) is not { } quantity)
            problems.Add(node!.Place, $"{Words.Quote(text)} is not a number with a unit", NumberRemedy(text, usual));
        else if (quantity.Unit.Length == 0)
            problems.Add(node!.Place, $"{Words.Quote(text)} has no unit", UnitRemedy(text, accepted, usual));
        else if (!accepted.Contains(quantity.Unit))
            problems.Add(node!.Place, WrongUnit(text, quantity.Unit), $"write the value in {Words.Either(accepted)}");
        else
            return quantity;
        return null;
    }

    // Only the writer knows which it was: 180 of the wrong one is a flywheel instead of a disc.
    private static string UnitRemedy(string number, IReadOnlyList<string> accepted, string usual)
    {
        string[] units = [usual, .. accepted.Where(u => u != usual)];
        return units.Length > MostListed
            ? $"write its unit after it, as in `{number} {usual}`"
            : $"write {Words.Either(units.Select(u => $"`{number} {u}`"))}{(units.Length > 1 ? ", whichever it is" : "")}";
    }

    private static string WrongUnit(string text, string unit) => Units.Canonical(unit) is null
        ? $"{Words.Quote(text)} has an unknown unit"
        : $"{Words.Quote(text)} has a unit of the wrong kind";

    private static string NumberRemedy(string text, string usual) => Values.Quantity.WithoutComma(text) is { } pointed
        ? $"write `{(pointed.Contains(' ') ? pointed : $"{pointed} {usual}")}`, with a decimal point"
        : $"write a number and its unit, in {usual}";

    private static TimeSpan? AsTime(double? seconds) => seconds is { } s ? TimeSpan.FromSeconds(s) : null;
}
