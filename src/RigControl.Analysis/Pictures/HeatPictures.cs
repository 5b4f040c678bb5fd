using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Heat;

namespace RigControl.Analysis.Pictures;

/// <summary>What is to be seen of parts that cool.</summary>
internal static class HeatPictures
{
    /// <summary>One picture for each temperature that cooled enough to be fitted.</summary>
    public static IEnumerable<FitPicture> Cooling(FigureContext context)
    {
        List<FitPicture> pictures = [];
        foreach (string channel in context.Trace.Channels.Where(c => c.Value.Unit == "degC" && c.Value.Count > 1).Select(c => c.Key))
        {
            try
            {
                pictures.Add(Of(context, channel));
            }
            catch (Exception e) when (e is NoFigureException or FitFailedException)
            {
                // The next one may have cooled.
            }
        }

        return pictures.Count > 0 ? pictures : throw new NoFigureException("no temperature cooled enough to be fitted");
    }

    private static FitPicture Of(FigureContext context, string channel)
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
