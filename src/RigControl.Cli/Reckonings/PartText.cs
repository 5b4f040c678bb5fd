using RigControl.Analysis.Inertias;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Cli.Reckonings;

/// <summary>A part of a rotor as a person writes it: <c>disc, 500 g +- 1, 80 mm</c>, or off the axis <c>disc, 8 g, 4 mm, at 60 mm</c>.</summary>
internal static class PartText
{
    public static string HowToWrite { get; } = "a shape, its mass and its lengths, with 'at DISTANCE' where it sits off the axis, such as \"disc, 500 g +- 1, 80 mm\"; shapes are "
        + string.Join("; ", BodyShape.All.Select(s => $"{s.Name} ({string.Join(", ", s.Lengths)})"));

    /// <summary>The part that the text says.</summary>
    /// <param name="number">Of the part, from 1, for the budget.</param>
    /// <exception cref="CliException">The text cannot be read; exit code 2.</exception>
    public static RotorPart Read(string text, int number, bool takenAway)
    {
        List<string> words = [.. text.Split(',', StringSplitOptions.TrimEntries)];
        BodyShape shape = BodyShape.All.FirstOrDefault(s => s.Name == words[0]) ?? throw Bad(text);
        string name = $"{shape.Name} {number}";
        Input distance = new($"{name} distance", 0, 0);
        if (words[^1].StartsWith("at ", StringComparison.Ordinal))
        {
            distance = StatedValue.Positive(words[^1][3..], distance.Name, "m");
            words.RemoveAt(words.Count - 1);
        }

        if (words.Count != 2 + shape.Lengths.Count)
            throw Bad(text);
        Input[] lengths = [.. shape.Lengths.Select((l, i) => StatedValue.Positive(words[i + 2], $"{name} {l}", "m"))];
        if (shape.Name == "ring" && lengths[1].Value >= lengths[0].Value)
            throw new CliException(ExitCode.BadInput, $"'{text}': the inner radius is smaller than the outer one, which comes first");
        return new RotorPart(shape, StatedValue.Positive(words[1], $"{name} mass", "kg"), lengths, distance, takenAway);
    }

    private static CliException Bad(string text) => new(ExitCode.BadInput, $"'{text}' is no part: write {HowToWrite}");
}
