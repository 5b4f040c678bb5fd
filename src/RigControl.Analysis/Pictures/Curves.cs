using RigControl.Analysis.Fitting;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Pictures;

/// <summary>From a fit to its curve and band.</summary>
internal static class Curves
{
    private const int Points = 60;

    /// <summary>Sixty places over the data, the ends included.</summary>
    public static double[] Places(double from, double to) => [.. Enumerable.Range(0, Points).Select(i => from + (to - from) * i / (Points - 1))];

    /// <summary>A curve whose value at any place is a formula of the fit's parameters: value and band by the law of propagation.</summary>
    /// <param name="at">From a place to the formula of the value there.</param>
    public static IReadOnlyList<CurvePoint> Of(Fit fit, double[] places, Func<double, Formula> at)
    {
        Input[] inputs = [.. fit.Parameters.Select((p, k) => new Input($"{k}", p, fit.Uncertainty(k), fit.DegreesOfFreedom))];
        double[,] correlations = new double[inputs.Length, inputs.Length];
        for (int i = 0; i < inputs.Length; i++)
        {
            for (int j = 0; j < inputs.Length; j++)
                correlations[i, j] = i == j ? 1 : fit.Correlation(i, j);
        }

        return [.. places.Select(x =>
        {
            var value = Propagation.ByLaw(at(x), inputs, correlations);
            double half = Coverage.Factor95(fit.DegreesOfFreedom) * value.Uncertainty;
            return new CurvePoint(x, value.Value, value.Value - half, value.Value + half);
        })];
    }

    /// <summary>A value with its 95 % interval, at a place.</summary>
    public static CurvePoint Point(double x, Figures.Measured value) => new(x, value.Value, value.Interval95.Low, value.Interval95.High);

    /// <summary>The curve between its points, by a straight line.</summary>
    public static double At(IReadOnlyList<CurvePoint> curve, double x)
    {
        int k = 0;
        while (k + 2 < curve.Count && curve[k + 1].X < x)
            k++;
        (CurvePoint a, CurvePoint b) = (curve[k], curve[k + 1]);
        return a.Y + (b.Y - a.Y) * (x - a.X) / (b.X - a.X);
    }
}
