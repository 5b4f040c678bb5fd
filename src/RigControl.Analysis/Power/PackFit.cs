using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Power;

/// <summary>A pack behind one resistance, from the steps of its load: voltage = rested voltage − resistance × current − fall × charge drawn.</summary>
/// <param name="Rested">V at the beginning of the samples.</param>
/// <param name="Resistance">Ohm.</param>
public sealed record PackFit(Measured Rested, Measured Resistance)
{
    private const int MostSamples = 4000;

    /// <summary>Rested voltage, V; less resistance, ohm; less fall, V/C.</summary>
    public required Fit Line { get; init; }

    /// <summary>
    /// Covariance of the rested voltage with the readings under the highest current, V2: both come from the same samples, and what lifts those
    /// lowers where the line meets no current (JCGM 100:2008, 5.2; derived for this).
    /// </summary>
    public required double SharedWithLowest { get; init; }

    /// <summary>Current of the samples, A.</summary>
    public required double[] Amperes { get; init; }

    /// <summary>Their voltage, V, with what the charge drawn by then took off it put back.</summary>
    public required double[] Volts { get; init; }

    /// <summary>Fits samples of voltage and current.</summary>
    /// <exception cref="NoFigureException">The current hardly changed.</exception>
    public static PackFit Of(Series voltage, Series current)
    {
        int stride = Math.Max(1, current.Count / MostSamples);
        int[] taken = [.. Enumerable.Range(0, current.Count).Where(i => i % stride == 0)];
        double[] times = [.. taken.Select(i => current.Times[i])];
        double[] amperes = [.. taken.Select(i => current.Values[i])];
        double noise = PackSeries.Noise(current);
        double swing = amperes.Length < 10 ? 0 : Summary.Deviation(amperes);
        if (!(swing > 5 * noise) || !(swing > 1e-6))
            throw new NoFigureException("the current hardly changed");
        double[] charge = Charge(times, amperes);
        double[] volts = PackSeries.At(voltage, times);
        Fit line = Sharpened(LinearFit.Solve([[.. times.Select(_ => 1.0)], amperes, charge], volts).WithSerialCorrelation(), amperes, charge, noise);
        Measured Parameter(int k, int sign) => Measured.Of(sign * line.Parameters[k], new Input("scatter of the samples", 0, line.Uncertainty(k), line.DegreesOfFreedom));
        int highest = Array.IndexOf(amperes, amperes.Max());
        double shared = line.Covariance[0, 0] + line.Covariance[0, 1] * amperes[highest] + line.Covariance[0, 2] * charge[highest];
        return new PackFit(Parameter(0, 1), Parameter(1, -1)) { SharedWithLowest = shared, Line = line, Amperes = amperes, Volts = [.. volts.Zip(charge, (u, q) => u - line.Parameters[2] * q)] };
    }

    // Scatter in the current flattens the line by its share of what the charge does not explain of the current.
    private static Fit Sharpened(Fit fit, double[] amperes, double[] charge, double noise)
    {
        Fit other = LinearFit.Solve([[.. charge.Select(_ => 1.0)], charge], amperes);
        double own = other.ResidualDeviation;
        if (!(own > 1.5 * noise))
            throw new NoFigureException("the current hardly changed");
        double steeper = fit.Parameters[1] * (1 / (1 - noise * noise / (own * own)) - 1);
        return fit with { Parameters = [fit.Parameters[0] - steeper * other.Parameters[0], fit.Parameters[1] + steeper, fit.Parameters[2] - steeper * other.Parameters[1]] };
    }

    /// <summary>
    /// Share of a pack's capacity that a match takes, 0 to 1 and above, and how many standard uncertainties are left to the end.
    /// </summary>
    /// <param name="current">Mean with the output on, A.</param>
    /// <param name="length">Of a match, s.</param>
    /// <param name="duty">Share of the match with the output on, 0 to 1.</param>
    /// <param name="capacity">Ah.</param>
    public static (Measured Share, double Margin) Match(Measured current, double length, double duty, Input capacity)
    {
        Measured share = Propagation.Of(x => x[0] * length * duty / 3600 / x[1], [current.As("mean current"), capacity]);
        return (share, (1 - share.Value) / share.Uncertainty);
    }

    private static double[] Charge(double[] times, double[] amperes)
    {
        double[] charge = new double[times.Length];
        for (int i = 1; i < times.Length; i++)
            charge[i] = charge[i - 1] + 0.5 * (amperes[i] + amperes[i - 1]) * (times[i] - times[i - 1]);
        return charge;
    }
}
