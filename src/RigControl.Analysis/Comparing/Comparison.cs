using RigControl.Analysis.Figures;
using RigControl.Model.Records;

namespace RigControl.Analysis.Comparing;

/// <summary>Compares every figure that two sides have, and corrects for their number.</summary>
public static class Comparison
{
    /// <summary>Figures in the order of the first side.</summary>
    /// <param name="a">Per run of the first side, its figures.</param>
    /// <param name="b">The same of the second.</param>
    /// <param name="sameRig">Whether all were made on one rig, so that what is common to its values cancels.</param>
    /// <param name="fresh">Whether the figures' uncertainty is drawn anew with every value, as with readings by hand.</param>
    /// <param name="others">Figures compared besides, for which to correct too.</param>
    public static IReadOnlyList<ComparedFigure> Of(
        IReadOnlyList<IReadOnlyList<Figure>> a, IReadOnlyList<IReadOnlyList<Figure>> b, bool sameRig, bool fresh, int others = 0)
    {
        List<(string Name, string Unit, ValueGroup A, ValueGroup B, Difference Difference)> rows = [];
        foreach ((string name, string unit) in a.SelectMany(r => r).Where(f => f.Value is not null).Select(f => (KeyOf(f), f.Unit)).Distinct())
        {
            ValueGroup first = ValueGroup.Of(Only(a, name, unit), fresh), second = ValueGroup.Of(Only(b, name, unit), fresh);
            if (first.Count > 0 && second.Count > 0)
                rows.Add((name, unit, first, second, Difference.Of(first, second, sameRig)));
        }

        double[] chances = [.. rows.Select(r => r.Difference.Chance), .. Enumerable.Repeat(1.0, others)];
        double[] adjusted = Holm.Adjust(chances);
        int told = chances.Count(c => !double.IsNaN(c));
        return [.. rows.Select((r, i) => new ComparedFigure(r.Name, r.Unit, r.A, r.B, r.Difference, adjusted[i], told))];
    }

    /// <summary>A figure's name, with its channel where figures of several channels share one.</summary>
    public static string KeyOf(Figure figure) => FigureCatalog.ChannelOf(figure) is { } channel ? $"{figure.Name} of {channel}" : figure.Name;

    private static IReadOnlyList<Figure>[] Only(IReadOnlyList<IReadOnlyList<Figure>> runs, string name, string unit) =>
        [.. runs.Select(r => (IReadOnlyList<Figure>)[.. r.Where(f => f.Value is not null && f.Unit == unit && KeyOf(f) == name)])];
}
