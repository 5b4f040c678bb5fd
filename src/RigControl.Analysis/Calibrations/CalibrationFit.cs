using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;

namespace RigControl.Analysis.Calibrations;

/// <summary>
/// Fits a correction to points, weighted by what each is known to (a straight line as in JCGM 100:2008, H.3; from memory). Points that say
/// nothing of themselves count alike, and what is left over tells how well they are known.
/// </summary>
/// <param name="Residuals">Reference less corrected reading of every point, in the channel's unit.</param>
public sealed record CalibrationFit(Calibration Calibration, IReadOnlyList<double> Residuals)
{
    // Of the largest reference: less than this left over is the arithmetic's, no scatter.
    private const double Typed = 1e-9;

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
        (double[] weights, bool stated) = Weights(points);
        Fit fit = Solve(readings, observed, weights, fitted);
        double agreement = fit.DegreesOfFreedom > 0 ? fit.ResidualSumOfSquares / fit.DegreesOfFreedom : 0;
        // Points that agree worse than they should are believed less; by chance they may agree better. Where nothing was stated, only what is
        // left over tells; points that agree to the last digit typed tell nothing.
        bool judged = agreement > (stated ? 1 : Math.Pow(Typed * references.Max(Math.Abs), 2)), unknown = !stated && !judged;
        double scale = judged ? agreement : stated ? 1 : 0;
        double[] covariance = new double[9];
        for (int i = 0; i < fitted.Length; i++)
        {
            start[fitted[i]] = fit.Parameters[i];
            for (int j = 0; j < fitted.Length; j++)
                covariance[3 * fitted[i] + fitted[j]] = scale * fit.Covariance[i, j];
        }

        Calibration calibration = new()
        {
            Channel = channel, Unit = unit, Kind = kind, Coefficients = start, Covariance = covariance, Common = common, Lowest = readings.Min(), Highest = readings.Max(), At = at,
            Freedom = judged ? fit.DegreesOfFreedom : null, UncertaintyUnknown = unknown,
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

    // What makes one point differ from the next; a share of what they all hang on does not. Where a point says nothing of itself all count
    // alike, each as the worst of those that do.
    private static (double[] Uncertainties, bool Stated) Weights(IReadOnlyList<CalibrationPoint> points)
    {
        double[] own = [.. points.Select(p => Measured.Combine(p.ReadingUncertainty, p.ReferenceUncertainty))];
        double worst = own.Max();
        return own.Min() > 0 ? (own, true) : ([.. own.Select(_ => worst > 0 ? worst : 1)], worst > 0);
    }

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
