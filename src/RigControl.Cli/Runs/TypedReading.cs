using System.Globalization;
using System.Text.RegularExpressions;
using RigControl.Analysis.Figures;
using RigControl.Documents.Values;
using RigControl.Model.Records;

namespace RigControl.Cli.Runs;

/// <summary>
/// Readings of a hand instrument as a person types them: <c>peak-speed=8912,8920 rpm</c>, with the instrument's step where
/// it is not the last digit typed: <c>mass=182 g +-2</c>.
/// </summary>
internal static partial class TypedReading
{
    public const string HowToWrite = "FIGURE=VALUE[,VALUE…] UNIT [+-STEP], such as \"peak-speed=8912,8920 rpm\" or \"mass=182 g +-2\"";

    /// <summary>One figure per value; its uncertainty is that of a value known to a step.</summary>
    /// <exception cref="CliException">The text cannot be read; exit code 2.</exception>
    public static IReadOnlyList<Figure> Read(string text)
    {
        Match match = Form().Match(text.Trim());
        if (!match.Success)
            throw Bad(text, $"it is not {HowToWrite}");
        (string name, string unit) = (match.Groups["name"].Value, match.Groups["unit"].Value);
        // Figures that are times are in seconds, while channels of pulses are in microseconds; kelvins are a rise and no temperature.
        string canonical = unit is "s" or "ms" or "us" ? "s" : unit == "K" ? "K" : Units.Canonical(unit) ?? throw Bad(text, $"'{unit}' is not a known unit: write one of {string.Join(", ", Units.Symbols)}");
        string[] values = match.Groups["values"].Value.Split(',');
        return [.. values.Select((v, i) => One(text, name, v.Trim(), unit, canonical, match.Groups["step"].Value, i + 1))];
    }

    private static Figure One(string text, string name, string typed, string unit, string canonical, string stepTyped, int repeat)
    {
        if (!double.TryParse(typed, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) || !double.IsFinite(value))
            throw Bad(text, $"'{typed}' is not a number");
        double step = stepTyped.Length > 0 ? double.Parse(stepTyped, CultureInfo.InvariantCulture) : LastDigit(typed);
        if (!(step > 0))
            throw Bad(text, "the instrument's step is above 0");
        double own = Units.ConvertDifference(step, unit, canonical), shown = Units.Convert(value, unit, canonical);
        // A value known to a step lies anywhere within half of it to each side; 95 % of that is the interval.
        (double, double) interval = (shown - 0.95 * own / 2, shown + 0.95 * own / 2);
        return new Figure(name, shown, canonical, Measured.OfResolution(own), interval, repeat,
            $"typed: {typed} {unit}, read to {step.ToString("R", CultureInfo.InvariantCulture)} {unit}", "the instrument's own error is not known")
        {
            Budget = [new Contribution("step of the instrument", Measured.OfResolution(own), 1)],
        };
    }

    /// <summary>The step of the last digit: 0.1 for 12.3, 1 for 8900, since a zero may be a reading.</summary>
    public static double LastDigit(string typed)
    {
        string[] parts = typed.Split('e', 'E');
        int point = parts[0].IndexOf('.', StringComparison.Ordinal);
        int digits = point < 0 ? 0 : parts[0].Length - point - 1;
        int exponent = parts.Length > 1 ? int.Parse(parts[1], CultureInfo.InvariantCulture) : 0;
        return Math.Pow(10, exponent - digits);
    }

    private static CliException Bad(string text, string why) => new(ExitCode.BadInput, $"'{text}': {why}");

    [GeneratedRegex(@"^(?<name>[a-z][a-z0-9-]*)\s*=\s*(?<values>[-+.\deE]+(?:\s*,\s*[-+.\deE]+)*)\s*(?<unit>[A-Za-z%1][\w./%]*)(?:\s*(?:\+-|±)\s*(?<step>\d+(?:\.\d+)?))?$", RegexOptions.CultureInvariant)]
    private static partial Regex Form();
}
