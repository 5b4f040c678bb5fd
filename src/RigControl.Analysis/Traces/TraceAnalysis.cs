using RigControl.Analysis.Calibrations;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Inertias;
using RigControl.Analysis.Repeats;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Traces;

/// <summary>All that can be had from a trace that came alone: its repeats, every figure or the reason why not, and what to mind.</summary>
public sealed record TraceAnalysis(IReadOnlyList<Figure> Figures, IReadOnlyList<Segment> Segments, IReadOnlyList<string> Notes)
{
    /// <summary>Torque, power and efficiency over speed, and electrical power over throttle, of every repeat.</summary>
    public required IReadOnlyList<DriveCurve> Curves { get; init; }

    /// <summary>What curves and pictures are made from: the trace as its calibrations correct it.</summary>
    public required FigureInput Input { get; init; }

    /// <summary>Analyses channels by name.</summary>
    /// <param name="article">As its file declared it; null for none.</param>
    /// <param name="restSpeed">Speed at which a coast-down counts as done, rpm, above 0.</param>
    /// <param name="asked">What some figures are asked at; null for nothing.</param>
    /// <param name="calibrations">By channel; null for none.</param>
    /// <param name="limits">Temperatures in degC, by channel, for time-to-limit and continuous-current; null for none.</param>
    /// <param name="at">When the trace was taken: for what had expired by then.</param>
    /// <param name="added">kg.m2 that the second of two repeats has more, for the rotor's inertia; null for none.</param>
    public static TraceAnalysis Of(
        IReadOnlyDictionary<string, Series> channels, Article? article, double restSpeed, AskedAt? asked, IReadOnlyDictionary<string, Calibration>? calibrations = null,
        DateTimeOffset at = default, IReadOnlyDictionary<string, double>? limits = null, Input? added = null)
    {
        (IReadOnlyList<Segment> segments, IReadOnlyList<string> found) = SegmentFinder.Of(channels);
        FigureInput input = new(new Trace(channels, segments), article, restSpeed) { Asked = asked ?? AskedAt.Nothing, TemperatureLimits = limits ?? new Dictionary<string, double>() };
        IReadOnlyDictionary<string, Calibration> given = calibrations ?? new Dictionary<string, Calibration>();
        IReadOnlyList<Figure> figures = CalibratedFigures.Compute([.. FigureCatalog.Names], input, given, at);
        if (added is { } more)
            figures = [.. figures, InertiaOfTrace.Of(input, more)];
        List<string> notes = [.. found];
        if (article is null)
            notes.Add("no article: what needs its inertia, radius or capacity is missing");
        notes.AddRange(CalibratedFigures.Doubts(input.Trace, given, at));
        if (CalibratedFigures.Missing(input.Trace, given) is { } missing)
            notes.Add(missing);
        notes.AddRange(RepeatText.Of(figures));
        FigureInput corrected = input with { Trace = CorrectedTrace.Of(input.Trace, given) };
        return new TraceAnalysis(figures, segments, notes) { Curves = DriveCurves.Of(corrected), Input = corrected };
    }
}
