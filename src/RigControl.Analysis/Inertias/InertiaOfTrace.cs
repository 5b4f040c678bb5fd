using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Inertias;

/// <summary>The rotor's inertia from a trace of two repeats, the second with a known inertia added.</summary>
public static class InertiaOfTrace
{
    private static readonly FigureKind Kind = new(
        "kg.m2", "coast-downs of the first repeat and of the second, with the added inertia",
        new FigureNeeds([ChannelNames.RotorSpeed], [ArticlePart.NoBraking], [RunPart.CoastDown]));

    /// <summary>The figure <c>inertia</c> in kg.m2, or the reason why there is none.</summary>
    /// <param name="input">A trace with the rotor alone first, and then with what was added.</param>
    /// <param name="added">kg.m2, above 0; without an uncertainty it counts as exact.</param>
    public static Figure Of(FigureInput input, Input added) => FigureCatalog.Take("inertia", Kind, 0, Kind.Method, () =>
    {
        (FigureContext alone, FigureContext together) = Repeats(input);
        return AddedInertia.Of(alone.CoastDown, together.CoastDown, added);
    });

    /// <exception cref="NoFigureException">There are fewer than two repeats, or more.</exception>
    internal static (FigureContext Alone, FigureContext Together) Repeats(FigureInput input)
    {
        IReadOnlyList<Segment> repeats = input.Trace.Segments;
        return repeats.Count == 2
            ? (new FigureContext(input, repeats[0]), new FigureContext(input, repeats[1]))
            : throw new NoFigureException($"it takes two repeats, the first without and the second with the added inertia; the trace has {repeats.Count}");
    }
}
