using RigControl.Analysis.Traces;

namespace RigControl.Reports.Plots;

/// <summary>Channels of one unit over time, drawn together.</summary>
/// <param name="Unit">Unit of all of them.</param>
/// <param name="Lines">Name and samples of each.</param>
public sealed record Panel(string Unit, IReadOnlyList<(string Name, Series Series)> Lines)
{
    // More lines in one panel cannot be told apart in black and white.
    private const int MostLines = 4;

    /// <summary>Sorts channels into panels by unit, in the order in which they were asked for.</summary>
    public static IReadOnlyList<Panel> Of(IEnumerable<(string Name, Series Series)> channels) =>
        [.. channels.Where(c => c.Series.Count > 0).GroupBy(c => c.Series.Unit).SelectMany(g => g.Chunk(MostLines)).Select(g => new Panel(g[0].Series.Unit, g))];
}

/// <summary>A moment that every panel marks with a line.</summary>
/// <param name="At">s.</param>
/// <param name="Text">In a word or two.</param>
/// <param name="Bad">Whether it is a trip or an incident.</param>
public sealed record Moment(double At, string Text, bool Bad);
