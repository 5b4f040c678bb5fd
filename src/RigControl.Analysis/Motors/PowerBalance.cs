using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Traces;

namespace RigControl.Analysis.Motors;

/// <summary>
/// Where the pack's power goes in a rise: to the shaft, as heat into resistance by the square of the drive, and to the electronics. Fitted to
/// the samples, it quiets them without bending what they say.
/// </summary>
/// <param name="Shares">Power of the pack, W, per drive × speed, per drive squared, and at rest.</param>
public sealed record PowerBalance(Fit Shares)
{
    private const int MostSamples = 400;

    // Of the strongest: where next to nothing is drawn a share says nothing.
    private const double Weak = 0.2;

    /// <summary>Fits the pack's power over a rise.</summary>
    /// <param name="power">W, samples of the rise.</param>
    /// <param name="rise">Time in s, speed in rad/s and drive in rad/s2 of the fitted rise, evenly in time.</param>
    /// <exception cref="NoFigureException">Too few samples.</exception>
    /// <exception cref="FitFailedException">Speed and drive changed too little to tell the parts.</exception>
    public static PowerBalance Of(Series power, IReadOnlyList<(double Time, double Speed, double Drive)> rise)
    {
        Series part = power.Between(rise[0].Time, rise[^1].Time);
        int stride = Math.Max(1, part.Count / MostSamples);
        int[] taken = [.. Enumerable.Range(0, part.Count).Where(i => i % stride == 0)];
        if (taken.Length < 12)
            throw new NoFigureException("the rise holds too few samples of the pack's power");
        (double, double Speed, double Drive)[] at = [.. taken.Select(i => At(rise, part.Times[i]))];
        return new PowerBalance(LinearFit.Solve(
            [[.. at.Select(a => a.Drive * a.Speed)], [.. at.Select(a => a.Drive * a.Drive)], [.. at.Select(_ => 1.0)]],
            [.. taken.Select(i => part.Values[i])]).WithSerialCorrelation());
    }

    /// <summary>
    /// The highest ratio of drive × speed to the pack's power, per kg.m2, wherever the pack gives a good part of its most; and the standard
    /// uncertainty of that power as a share of it. Zeros where the pack gives nothing.
    /// </summary>
    public (double Ratio, double Scatter) Best(IReadOnlyList<(double Time, double Speed, double Drive)> rise)
    {
        double[] power = [.. rise.Select(Power)];
        double least = Weak * power.Max(), best = 0;
        int at = 0;
        double Ratio(int i) => rise[i].Drive * rise[i].Speed / power[i];
        for (int i = 0; i + 1 < power.Length; i++)
        {
            if (power[i] <= least)
                continue;
            // The power falls below what counts somewhere between two points.
            double end = power[i + 1] < least ? Ratio(i) + (Ratio(i + 1) - Ratio(i)) * (power[i] - least) / (power[i] - power[i + 1]) : 0;
            double ratio = Math.Max(Ratio(i), end);
            if (ratio > best)
                (best, at) = (ratio, i);
        }

        return (best, best > 0 ? Uncertainty(Row(rise[at])) / power[at] : 0);
    }

    /// <summary>The same ratio at every point of the rise, and the standard uncertainty of the pack's power there as a share of it; not numbers where the pack gives too little.</summary>
    public (double Ratio, double Scatter)[] Along(IReadOnlyList<(double Time, double Speed, double Drive)> rise)
    {
        double[] power = [.. rise.Select(Power)];
        double least = Weak * power.Max();
        return [.. rise.Select((r, i) => power[i] > least ? (r.Drive * r.Speed / power[i], Uncertainty(Row(r)) / power[i]) : (double.NaN, double.NaN))];
    }

    // By a straight line between points, which lie evenly in time.
    private static (double Time, double Speed, double Drive) At(IReadOnlyList<(double Time, double Speed, double Drive)> rise, double time)
    {
        double place = (time - rise[0].Time) / (rise[^1].Time - rise[0].Time) * (rise.Count - 1);
        int below = Math.Clamp((int)place, 0, rise.Count - 2);
        double share = Math.Clamp(place - below, 0, 1);
        return (time, rise[below].Speed + share * (rise[below + 1].Speed - rise[below].Speed), rise[below].Drive + share * (rise[below + 1].Drive - rise[below].Drive));
    }

    private double Power((double Time, double Speed, double Drive) at) =>
        Shares.Parameters[0] * at.Drive * at.Speed + Shares.Parameters[1] * at.Drive * at.Drive + Shares.Parameters[2];

    private double Uncertainty(double[] row)
    {
        double variance = 0;
        for (int i = 0; i < row.Length; i++)
        {
            for (int j = 0; j < row.Length; j++)
                variance += row[i] * row[j] * Shares.Covariance[i, j];
        }

        return Math.Sqrt(Math.Max(0, variance));
    }

    private static double[] Row((double Time, double Speed, double Drive) point) => [point.Drive * point.Speed, point.Drive * point.Drive, 1];
}
