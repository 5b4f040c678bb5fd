using System.Globalization;
using System.Text.RegularExpressions;

namespace RigControl.Telemetry.Tests.Support;

/// <summary>
/// What a code of the Unified Code for Units of Measure stands for, worked out from the standard's own table: a factor and the powers
/// of the base units. Knows products, quotients from left to right, powers, prefixes and annotations; anything else is refused.
/// </summary>
internal sealed partial record UcumCode(double Factor, string Dimensions)
{
    private static readonly Dictionary<string, (bool Prefixes, double Value, string Unit)> Atoms = File.ReadLines(RigProgram.At("shared/reference/ucum/atoms.csv"))
        .Skip(1).Select(l => l.Split(',')).ToDictionary(c => c[0], c => (c[1] == "yes", double.Parse(c[2], CultureInfo.InvariantCulture), c[3]));

    private static readonly string[] Base = ["m", "s", "g", "rad", "K", "C", "cd"];

    private static readonly Dictionary<string, double> Prefixes = new() { ["k"] = 1e3, ["c"] = 1e-2, ["m"] = 1e-3, ["u"] = 1e-6 };

    public static UcumCode Of(string code)
    {
        (double factor, Dictionary<string, int> powers) = Worked(code);
        return new UcumCode(factor, string.Join('.', powers.Where(p => p.Value != 0).OrderBy(p => p.Key, StringComparer.Ordinal).Select(p => $"{p.Key}{p.Value}")));
    }

    private static (double Factor, Dictionary<string, int> Powers) Worked(string code)
    {
        (double factor, Dictionary<string, int> powers) = (1, []);
        int sign = 1;
        foreach (Match part in Parts().Matches(code))
        {
            if (part.Value is "." or "/")
            {
                sign = part.Value == "/" ? -1 : 1;
                continue;
            }

            int power = part.Groups[2].Success ? int.Parse(part.Groups[2].ValueSpan, CultureInfo.InvariantCulture) * sign : sign;
            (double one, Dictionary<string, int> its) = Simple(part.Groups[1].Value);
            factor *= Math.Pow(one, power);
            foreach ((string unit, int times) in its)
                powers[unit] = powers.GetValueOrDefault(unit) + times * power;
        }

        string read = string.Concat(Parts().Matches(code).Select(m => m.Value));
        return read == code ? (factor, powers) : throw new FormatException($"{code} is no code: only {read} of it can be read");
    }

    private static (double, Dictionary<string, int>) Simple(string unit)
    {
        if (unit.StartsWith('{'))
            return (1, []);
        if (double.TryParse(unit, NumberStyles.None, CultureInfo.InvariantCulture, out double number))
            return (number, []);
        if (Base.Contains(unit))
            return (1, new() { [unit] = 1 });
        if (Atoms.TryGetValue(unit, out var atom))
        {
            (double factor, Dictionary<string, int> powers) = Worked(atom.Unit);
            return (factor * atom.Value, powers);
        }

        string rest = unit[1..];
        if (!Prefixes.TryGetValue(unit[..1], out double prefix) || !(Base.Contains(rest) || Atoms.TryGetValue(rest, out var known) && known.Prefixes))
            throw new FormatException($"{unit} stands in no table");
        (double inner, Dictionary<string, int> dimensions) = Simple(rest);
        return (inner * prefix, dimensions);
    }

    // An annotation, a number, or a letter code with its power; between them a dot or a slash.
    [GeneratedRegex(@"[./]|(\{[!-z|~]*\}|\[[A-Za-z_]+\]|%|[A-Za-z]+|\d+)(-?\d+)?")]
    private static partial Regex Parts();
}
