using RigControl.Analysis.Figures;
using RigControl.Model.Records;

namespace RigControl.Analysis.Repeats;

/// <summary>A figure that a run has more than once, and what its repeats come to.</summary>
/// <param name="Name">Of the figure, with its channel where several share a name.</param>
/// <param name="Repeats">At least two, in order, all with a value and an uncertainty.</param>
public sealed record RepeatedFigure(string Name, IReadOnlyList<Figure> Repeats, RepeatStatistics Statistics)
{
    public string Unit => Repeats[0].Unit;

    /// <summary>Every figure that was repeated, in the order of the figures.</summary>
    public static IEnumerable<RepeatedFigure> Of(IReadOnlyList<Figure> figures) => figures
        .Where(f => f is { Repeat: > 0, Value: not null, StandardUncertainty: not null })
        .GroupBy(Which)
        .Where(g => g.Count() > 1)
        .Select(g => new RepeatedFigure(g.Key, [.. g], RepeatStatistics.Of([.. g.Select(Measured.Kept)])));

    // Figures of several channels share a name.
    private static string Which(Figure figure) => FigureCatalog.ChannelOf(figure) is { } channel ? $"{figure.Name} of {channel}" : figure.Name;
}
