using System.Globalization;
using System.Text.RegularExpressions;
using RigControl.Analysis.Uncertainty;
using RigControl.Documents.Values;

namespace RigControl.Cli.Reckonings;

/// <summary>A quantity as a person states it, with its standard uncertainty where that is known: <c>80 mm +- 0.1</c>.</summary>
internal static partial class StatedValue
{
    public const string HowToWrite = "VALUE UNIT [+- U], U its standard uncertainty in the same unit";

    /// <summary>In <paramref name="unit"/>; without an uncertainty it counts as exact.</summary>
    /// <param name="name">What it is, for messages and the budget.</param>
    /// <param name="bare">Whether a number without a unit is in <paramref name="unit"/>.</param>
    /// <exception cref="CliException">The text cannot be read; exit code 2.</exception>
    public static Input Read(string text, string name, string unit, bool bare = false)
    {
        Match match = Form().Match(text.Trim());
        if (!match.Success || !Number(match.Groups["value"].Value, out double value))
            throw Bad(text, name, $"write it as {HowToWrite}");
        string written = match.Groups["unit"].Value is { Length: > 0 } given ? given : bare ? unit : throw Bad(text, name, $"its unit is missing: write it as {HowToWrite}");
        IReadOnlyList<string> accepted = Units.Accepted(unit);
        if (!accepted.Contains(written))
            throw Bad(text, name, $"'{written}' is no unit for it: write one of {string.Join(", ", accepted)}");
        double uncertainty = 0;
        if (match.Groups["by"].Success && !Number(match.Groups["by"].Value, out uncertainty))
            throw Bad(text, name, "its uncertainty is not a number");
        return new Input(name, Units.Convert(value, written, unit), Units.ConvertDifference(uncertainty, written, unit));
    }

    /// <summary>The same of what can only be above 0, and known better than to its own size.</summary>
    /// <exception cref="CliException">The text cannot be read, or is 0 or below; exit code 2.</exception>
    public static Input Positive(string text, string name, string unit, bool bare = false)
    {
        Input stated = Read(text, name, unit, bare);
        if (!(stated.Value > 0))
            throw Bad(text, name, "it is above 0");
        // Nearer to 0 than this, the quantity might as well be nothing, and formulas that divide by it say nothing.
        return stated.Uncertainty <= stated.Value / 3 ? stated : throw Bad(text, name, "its uncertainty is more than a third of it: measure it better");
    }

    private static bool Number(string text, out double value) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);

    private static CliException Bad(string text, string name, string why) => new(ExitCode.BadInput, $"{name} '{text}': {why}");

    [GeneratedRegex(@"^(?<value>-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?)\s*(?<unit>[A-Za-z%][\w./%]*)?(?:\s*(?:\+-|±)\s*(?<by>\d+(?:\.\d+)?(?:[eE][-+]?\d+)?))?$", RegexOptions.CultureInvariant)]
    private static partial Regex Form();
}
