using RigControl.Analysis.Fitting;

namespace RigControl.Analysis.Calibrations;

/// <summary>Fits a correction to points. Weighted straight lines as in JCGM 100:2008, H.3 (from memory).</summary>
/// <param name="Residuals">Reference less corrected reading of every point, in the channel's unit.</param>
public sealed record CalibrationFit(Calibration Calibration, IReadOnlyList<double> Residuals)
{
    /// <summary>Points that a kind needs at least: one more than it fits, so that the residuals say something; one for an offset or a gain.</summary>
    public static int Needed(CalibrationKind kind) => kind switch
    {
        CalibrationKind.Offset or CalibrationKind.Gain => 1,
        CalibrationKind.Line => 3,
        _ => 4,
    };

    /// <summary>The correction through the points; the caller adds where it came from.</summary>
    /// <param name="common">Standard uncertainty that all references share, channel's unit.</param>
    /// <exception cref="FitFailedException">Too few points, or all at one reading.</exception>
    public static CalibrationFit Of(string channel, string unit, CalibrationKind kind, IReadOnlyList<CalibrationPoint> points, double common, DateTimeOffset at)
    {
        if (points.Count < Needed(kind))
            throw new FitFailedException($"{points.Count} points are too few: take at least {Needed(kind)}");
        double[] readings = [.. points.Select(p => p.Reading)], references = [.. points.Select(p => p.Reference)];
        int[] fitted = Fitted(kind);
        double[] start = [0, 1, 0];
        // Where the factor is not fitted it is one: what is left is the constant.
        double[] observed = [.. references.Select((r, i) => kind == CalibrationKind.Offset ? r - readings[i] : r)];
        double[] uncertainties = [.. points.Select(Scatter)];
        Fit fit = Solve(readings, observed, uncertainties, fitted);
        double[] covariance = new double[9];
        // Points that agree worse than they should are believed less; by chance they may agree better.
        double scale = fit.DegreesOfFreedom > 0 ? Math.Max(1, fit.ResidualSumOfSquares / fit.DegreesOfFreedom) : 1;
        for (int i = 0; i < fitted.Length; i++)
        {
            start[fitted[i]] = fit.Parameters[i];
            for (int j = 0; j < fitted.Length; j++)
                covariance[3 * fitted[i] + fitted[j]] = scale * fit.Covariance[i, j];
        }

        Calibration calibration = new()
        {
            Channel = channel, Unit = unit, Kind = kind, Coefficients = start, Covariance = covariance, Common = common, Lowest = readings.Min(), Highest = readings.Max(), At = at,
        };
        return new CalibrationFit(calibration, [.. points.Select(p => p.Reference - calibration.Correct(p.Reading).Value)]);
    }

    private static int[] Fitted(CalibrationKind kind) => kind switch
    {
        CalibrationKind.Offset => [0],
        CalibrationKind.Gain => [1],
        CalibrationKind.Line => [0, 1],
        _ => [0, 1, 2],
    };

    // What makes one point differ from the next; a share of what they all hang on does not.
    private static double Scatter(CalibrationPoint p) =>
        Math.Max(Math.Sqrt(p.ReadingUncertainty * p.ReadingUncertainty + p.ReferenceUncertainty * p.ReferenceUncertainty), 1e-12 * Math.Max(1, Math.Abs(p.Reference)));

    private static Fit Solve(double[] readings, double[] observed, double[] uncertainties, int[] fitted) => LeastSquares.Solve(new FitProblem
    {
        Observed = observed,
        Uncertainties = uncertainties,
        UncertaintiesKnown = true,
        Start = [.. fitted.Select(k => k == 1 ? 1.0 : 0.0)],
        Scale = [.. fitted.Select(k => k == 1 ? 1.0 : k == 0 ? Math.Max(1e-9, observed.Max(Math.Abs)) : 1 / Math.Max(1e-9, readings.Max(Math.Abs)))],
        Names = [.. fitted.Select(k => k switch { 0 => "offset", 1 => "gain", _ => "bend" })],
        Model = (p, predicted) =>
        {
            for (int i = 0; i < predicted.Length; i++)
            {
                predicted[i] = 0;
                for (int k = 0; k < fitted.Length; k++)
                    predicted[i] += p[k] * (fitted[k] == 0 ? 1 : fitted[k] == 1 ? readings[i] : readings[i] * readings[i]);
            }
        },
    });
}
