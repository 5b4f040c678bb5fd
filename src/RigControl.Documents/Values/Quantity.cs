using System.Globalization;
using System.Text.RegularExpressions;

namespace RigControl.Documents.Values;

/// <summary>A number with its unit, as written.</summary>
/// <param name="Unit">Empty where none was written.</param>
internal readonly partial record struct Quantity(double Value, string Unit)
{
    /// <summary>The parts of a text such as <c>60 %</c>; null where it does not begin with a number.</summary>
    public static Quantity? Parse(string text)
    {
        Match match = NumberThenUnit().Match(text);
        if (!match.Success)
            return null;
        double value = double.Parse(match.Groups[1].ValueSpan, NumberStyles.Float, CultureInfo.InvariantCulture);
        return double.IsFinite(value) ? new(value, match.Groups[2].Value) : null;
    }

    /// <summary>The text with a point where somebody wrote a decimal comma; null where there is none.</summary>
    public static string? WithoutComma(string text) => DecimalComma().IsMatch(text) ? text.Replace(',', '.') : null;

    /// <summary>The number as a person writes it; powers of ten only where it would vanish among zeros.</summary>
    public static string Show(double value) =>
        value.ToString(value == 0 || Math.Abs(value) >= 1e-6 ? "0.######" : "0.###e0", CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(-?[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?) *((?:[^ 0-9.,].*)?|1)$", RegexOptions.CultureInvariant)]
    private static partial Regex NumberThenUnit();

    [GeneratedRegex("^-?[0-9]+,[0-9]+( |$)", RegexOptions.CultureInvariant)]
    private static partial Regex DecimalComma();
}
