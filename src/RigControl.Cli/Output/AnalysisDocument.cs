using RigControl.Analysis.Figures;
using RigControl.Analysis.Repeats;
using RigControl.Analysis.Traces;

namespace RigControl.Cli.Output;

/// <summary>The JSON document of <c>analyze --json</c>.</summary>
internal static class AnalysisDocument
{
    public static object Of(TraceAnalysis analysis) => new
    {
        figures = analysis.Figures.Select(RunDocument.Of),
        repeats = RepeatedFigure.Of(analysis.Figures).Select(RepeatDocument.Of),
        segments = analysis.Segments.Select(s => new
        {
            repeat = s.Repeat, riseAt = Known(s.RiseAt), holdAt = Known(s.HoldAt), releaseAt = Known(s.ReleaseAt), endAt = Known(s.EndAt),
        }),
        notes = analysis.Notes,
        curves = analysis.Curves.Select(Of),
    };

    private static object Of(DriveCurve curve) => new
    {
        name = curve.Name, unit = curve.Unit, across = curve.Across, acrossUnit = curve.AcrossUnit, repeat = curve.Repeat, method = curve.Method, note = curve.Note,
        points = curve.Points.Select(p => new { at = p.X, value = p.Y, interval95 = new[] { p.Low, p.High } }),
    };

    private static double? Known(double time) => double.IsNaN(time) ? null : Math.Round(time, 6);
}
