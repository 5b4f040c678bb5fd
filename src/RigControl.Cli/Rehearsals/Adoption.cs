using System.Globalization;
using System.Text.RegularExpressions;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Repeats;
using RigControl.Analysis.Uncertainty;
using RigControl.Cli.Loading;
using RigControl.Documents;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Cli.Rehearsals;

/// <summary>An article's text with what a run measured in place of what was declared.</summary>
/// <param name="Text">The new text; it reads as an article.</param>
/// <param name="Changes">A sentence each.</param>
internal sealed record Adoption(string Text, IReadOnlyList<string> Changes)
{
    // Figure, section and key of the article, unit to write, key of the uncertainty.
    private static readonly (string Figure, string Section, string Key, string Unit, string Uncertainty)[] Table =
    [
        ("motor-kv", "motor", "kv", "rpm/V", "kv"),
        ("winding-resistance", "motor", "winding-resistance", "Ohm", "winding-resistance"),
        ("no-load-current", "motor", "no-load-current", "A", "no-load-current"),
        ("pack-resistance", "pack", "resistance", "Ohm", "pack-resistance"),
    ];

    private const string Winding = "winding-resistance";

    /// <summary>What was measured and is not adopted, a sentence each.</summary>
    public IReadOnlyList<string> Left { get; private init; } = [];

    /// <param name="winding">degC of the winding while it was measured; null where the run does not tell.</param>
    /// <exception cref="CliException">The run measured nothing that an article declares, or the text has no place for it.</exception>
    public static Adoption Of(string text, RunHeader header, IReadOnlyList<Figure> figures, string file, Measured? winding = null)
    {
        List<string> changes = [], left = [];
        string result = text;
        foreach ((string figure, string section, string key, string unit, string uncertainty) in Table)
        {
            if (Mean([.. figures.Where(f => f.Name == figure && f.Value is not null && f.Unit == unit)]) is not var (value, standard) || !(value > 0))
                continue;
            string how = "";
            if (figure == Winding)
            {
                if (winding is null)
                {
                    left.Add($"{key} is left as it was: an article means it at 20 degC, and run {header.Run} does not tell how warm the winding was; record motor.temperature");
                    continue;
                }

                how = string.Create(CultureInfo.InvariantCulture, $" (measured {Rounding.Of(value, standard).Value} {unit} with the winding at {winding.Value:0} degC; at 20 degC as an article means it)");
                (value, standard) = Cold(value, standard, winding);
            }

            string written = $"{Rounding.Of(value, standard).Value} {unit}";
            if (ArticleEdit.Set(result, section, key, written, out string? was) is not { } changed)
                continue;
            double share = Math.Min(0.5, standard / value);
            string change = string.Create(CultureInfo.InvariantCulture, $"{key}: {was} becomes {written}, known to {share * 100:0.##} %{how}");
            changes.Add(change);
            result = ArticleEdit.WithHistory(State(changed, uncertainty, share), header, change);
        }

        if (changes.Count == 0 && left.Count > 0)
            throw new CliException(ExitCode.BadInput, string.Join("; ", left));
        if (changes.Count == 0)
            throw new CliException(ExitCode.BadInput, $"run {header.Run} measured none of {string.Join(", ", Table.Select(t => t.Figure))} that {file} declares; run the procedure for motor constants or pack sag with these figures");
        if (DocumentReader.ReadArticle(result, file).Value is not Article)
            throw new CliException(ExitCode.BadInput, $"{file} would no longer read with these values in it; put them in by hand: {string.Join("; ", changes)}");
        return new Adoption(result, changes) { Left = left };
    }

    // Copper gains resistance as it warms. The controller's share of it does so too, about as much.
    private static (double Value, double Standard) Cold(double value, double standard, Measured winding)
    {
        Measured cold = Propagation.Of(
            x => x[0] / (1 + Physics.Motor.CopperCoefficient * (x[1] - 20)), [new Input("resistance", value, standard), winding.As("temperature of the winding")]);
        return (cold.Value, cold.Uncertainty);
    }

    // The repeats' mean, with what they scatter and, whole, what they share.
    private static (double Value, double Standard)? Mean(Figure[] repeats)
    {
        if (repeats.Length == 0)
            return null;
        Measured mean = RepeatStatistics.Of([.. repeats.Select(Measured.Kept)]).Mean;
        return (mean.Value, mean.Uncertainty);
    }

    private static string State(string text, string key, double share)
    {
        string percent = string.Create(CultureInfo.InvariantCulture, $"{share * 100:0.####} %");
        if (ArticleEdit.Set(text, "uncertainty", key, percent, out _) is { } stated)
            return stated;
        Match section = Regex.Match(text, @"^uncertainty:[ \t]*\{", RegexOptions.Multiline | RegexOptions.CultureInvariant);
        return section.Success
            ? text.Insert(section.Index + section.Length, $" {key}: {percent},")
            : text.TrimEnd('\n') + $"\nuncertainty: {{ {key}: {percent} }}\n";
    }
}
