using System.Globalization;
using System.Text.Json;
using RigControl.Cli.Output;
using RigControl.Model.Records;

namespace RigControl.Cli.Rehearsals;

/// <summary>Prediction and measurement side by side, with a sentence on each figure that came out otherwise.</summary>
internal static class Foresight
{
    private sealed record Predicted(string Name, string Of, int Repeat, double Median, double Low, double High);

    /// <summary>Lines for a person; none for a run without a rehearsal.</summary>
    public static IEnumerable<string> Lines(RunHeader header, IReadOnlyList<Figure> figures)
    {
        if (header.Rehearsal is not { } rehearsal)
            yield break;
        List<(Figure Measured, Predicted Predicted)> pairs = [.. Pairs(Read(rehearsal.Text), figures)];
        if (pairs.Count == 0)
            yield break;
        yield return "figure              repeat  rehearsed (95 %)            measured";
        foreach ((Figure measured, Predicted predicted) in pairs)
        {
            string band = Text($"{predicted.Low:G4} to {predicted.High:G4}");
            yield return Text($"{measured.Name,-19} {Repeat(measured),6}  {band,-27} {FigureText.Of(measured)}");
        }

        foreach ((Figure measured, Predicted predicted) in pairs)
        {
            if (Sentence(measured, predicted) is { } sentence)
                yield return sentence;
        }
    }

    private static string? Sentence(Figure measured, Predicted predicted)
    {
        double value = measured.Value!.Value, room = 2 * (measured.StandardUncertainty ?? 0);
        string which = value + room < predicted.Low ? "lower" : value - room > predicted.High ? "higher" : "";
        if (which.Length == 0)
            return null;
        double by = predicted.Median == 0 ? 0 : Math.Abs(value / predicted.Median - 1) * 100;
        return Text($"{measured.Name} of repeat {Repeat(measured)} came out {which} than any of 95 % of the rehearsed benches, by {by:0.#} % of what was expected: the article's data or the rig are not what was declared");
    }

    private static IEnumerable<(Figure, Predicted)> Pairs(List<Predicted> predicted, IReadOnlyList<Figure> figures)
    {
        foreach (Figure figure in figures.Where(f => f.Value is not null))
        {
            Predicted? match = predicted.Find(p => p.Name == figure.Name && p.Repeat == figure.Repeat && figure.Method.Contains(p.Of, StringComparison.Ordinal));
            if (match is not null)
                yield return (figure, match);
        }
    }

    private static List<Predicted> Read(string text)
    {
        using JsonDocument read = JsonDocument.Parse(text);
        List<Predicted> predicted = [];
        foreach (JsonElement figure in read.RootElement.GetProperty("figures").EnumerateArray())
        {
            if (figure.GetProperty("median").ValueKind != JsonValueKind.Number || figure.GetProperty("interval95").ValueKind != JsonValueKind.Array)
                continue;
            JsonElement interval = figure.GetProperty("interval95");
            predicted.Add(new Predicted(
                figure.GetProperty("name").GetString() ?? "", figure.GetProperty("of").GetString() ?? "", figure.GetProperty("repeat").GetInt32(),
                figure.GetProperty("median").GetDouble(), interval[0].GetDouble(), interval[1].GetDouble()));
        }

        return predicted;
    }

    private static string Repeat(Figure figure) => figure.Repeat == 0 ? "all" : figure.Repeat.ToString(CultureInfo.InvariantCulture);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
