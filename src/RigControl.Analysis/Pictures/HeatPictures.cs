using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Heat;

namespace RigControl.Analysis.Pictures;

/// <summary>What is to be seen of parts that a current heats, and that cool.</summary>
internal static class HeatPictures
{
    /// <summary>One picture for each temperature that cooled enough to be fitted.</summary>
    public static IEnumerable<FitPicture> Cooling(FigureContext context) => Each(context, Cooled, "no temperature cooled enough to be fitted");

    /// <summary>One picture for each temperature that followed the square of the current.</summary>
    public static IEnumerable<FitPicture> Heating(FigureContext context) => Each(context, Heated, "no temperature followed the current enough to be fitted");

    private static List<FitPicture> Each(FigureContext context, Func<FigureContext, string, FitPicture> draw, string none)
    {
        List<FitPicture> pictures = [];
        foreach (string channel in context.Trace.Channels.Where(c => c.Value.Unit == "degC" && c.Value.Count > 1).Select(c => c.Key))
        {
            try
            {
                pictures.Add(draw(context, channel));
            }
            catch (Exception e) when (e is NoFigureException or FitFailedException)
            {
                // The next one may be better known.
            }
        }

        return pictures.Count > 0 ? pictures : throw new NoFigureException(none);
    }

    private static FitPicture Heated(FigureContext context, string channel)
    {
        HeatingFit fit = HeatingFigures.Seen(context, channel);
        // What is too badly known for a figure is nothing to look at either.
        HeatingFigures.Worth(fit.Gain);
        double[] times = fit.Times, fitted = fit.Curve(fit.Fit.Parameters);
        double[] places = [.. Curves.Places(0, times.Length - 1).Select(i => times[(int)i]).Distinct()];
        IReadOnlyList<CurvePoint> curve = Curves.Of(fit.Fit, places, t => p => fit.Curve(p)[Array.BinarySearch(times, t)]);
        return new FitPicture(
            $"heating-{channel.Replace('.', '-')}", $"Heating of {channel} by its load", "time [s]", "temperature [degC]", times, [.. fitted.Zip(fit.Fit.Residuals, (f, r) => f + r)], curve, fit.Fit.Residuals);
    }

    private static FitPicture Cooled(FigureContext context, string channel)
    {
        (CoolingFit fit, double[] times, double[] values) = HeatFigures.Cooled(context, channel);
        double first = times[0];
        bool ambientKnown = fit.Fit.Parameters.Length is 2 or 4;
        Uncertainty.Formula At(double t) => p =>
        {
            double final = ambientKnown ? fit.Final.Value : p[2];
            int quick = ambientKnown ? 2 : 3;
            double second = p.Length > quick + 1 ? p[quick] * Math.Exp(-(t - first) / p[quick + 1]) : 0;
            return final + p[0] * Math.Exp(-(t - first) / p[1]) + second;
        };
        IReadOnlyList<CurvePoint> curve = Curves.Of(fit.Fit, Curves.Places(first, times[^1]), At);
        return new FitPicture(
            $"cooling-{channel.Replace('.', '-')}", $"Cooling of {channel}", "time [s]", "temperature [degC]", times, values, curve,
            [.. times.Zip(values, (t, v) => v - At(t)(fit.Fit.Parameters))]);
    }
}
