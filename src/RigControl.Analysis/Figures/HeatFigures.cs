using RigControl.Analysis.Traces;

namespace RigControl.Analysis.Figures;

/// <summary>Figures that come from temperatures.</summary>
internal static class HeatFigures
{
    /// <summary>Highest minus first, K, over the repeat.</summary>
    public static Measured Rise(FigureContext context, string channel)
    {
        Series series = context.Need(channel);
        double step = Measured.OfResolution(series.Resolution);
        return new Measured(series.Values.Max() - series.Values[0], Measured.Combine(step, step));
    }
}
