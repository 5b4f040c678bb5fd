using RigControl.Analysis.Figures;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Power;

/// <summary>
/// A peak with a corner, as a current has where a ramp ends: a parabola through the samples before it and another through those after it
/// meet at its tip, which mostly lies between two samples.
/// </summary>
internal static class Corner
{
    // Samples on a side.
    private const int Fewest = 6;
    private const int Most = 300;

    // The highest sample need not be the nearest to the tip: scatter decides among neighbours.
    private const int Beside = 2;
    private const int Rounds = 8;

    // Standard uncertainties by which the slopes of both sides must differ: below it nothing tells a corner from a bend.
    private const double Distinct = 4;

    /// <summary>The tip's value; null where no corner shows.</summary>
    /// <param name="times">s, rising.</param>
    /// <param name="noise">Scatter of single samples, above 0.</param>
    /// <param name="highest">Index of the highest sample.</param>
    public static Measured? Of(double[] times, double[] values, double noise, int highest)
    {
        for (int off = 0; off <= Beside; off++)
        {
            foreach (int start in (int[])[highest - off, highest + off])
            {
                if (start >= 0 && start < times.Length && From(times, values, noise, times[start]) is { } tip)
                    return tip;
            }
        }

        return null;
    }

    // Where the sides meet tells which samples are of which side: again, until it stays.
    private static Measured? From(double[] times, double[] values, double noise, double tip)
    {
        Measured? found = null;
        int split = -1;
        for (int round = 0; round < Rounds; round++)
        {
            int next = Array.FindIndex(times, t => t >= tip);
            if (next == split)
                break;
            split = next;
            if (Side(times, values, split - 1, -1, noise) is not { } left || Side(times, values, split, 1, noise) is not { } right)
                return null;
            tip = Meeting(left, right, tip);
            found = double.IsNaN(tip) ? null : Tip(left, right, tip);
            if (found is null)
                return null;
        }

        return found;
    }

    /// <summary>
    /// Where both sides are equal each pulls the tip along the other's slope: value and uncertainty by the law of propagation (JCGM 100:2008,
    /// 5.1.2), the sides being independent.
    /// </summary>
    private static Measured? Tip(Parabola left, Parabola right, double at)
    {
        double rise = left.Slope(at), fall = -right.Slope(at);
        double known = Measured.Combine(left.UncertaintyOfSlope(at), right.UncertaintyOfSlope(at));
        if (!(rise > 0 && fall > 0 && rise + fall > Distinct * known))
            return null;
        double scatter = Measured.Combine(fall * left.UncertaintyAt(at), rise * right.UncertaintyAt(at)) / (rise + fall);
        return Measured.Of(left.At(at), new Input("scatter of the samples", 0, scatter));
    }

    // By Newton's rule, within reach of the shorter side; not a number where they do not meet there.
    private static double Meeting(Parabola left, Parabola right, double from)
    {
        double reach = 0.5 * Math.Min(left.Span, right.Span), at = from;
        for (int i = 0; i < 20; i++)
        {
            double slope = left.Slope(at) - right.Slope(at);
            at = Math.Clamp(at - (slope == 0 ? 0 : (left.At(at) - right.At(at)) / slope), from - reach, from + reach);
        }

        return Math.Abs(left.At(at) - right.At(at)) <= 1e-6 * Math.Max(left.UncertaintyAt(at), right.UncertaintyAt(at)) ? at : double.NaN;
    }

    // From its end at the tip as many samples as a parabola describes, and then half of them: what was not noticed of its being no parabola is an
    // eighth there, and scatter shows by the root of two more.
    private static Parabola? Side(double[] times, double[] values, int first, int step, double noise)
    {
        Parabola Of(int count) => new(times, values, Math.Min(first, first + step * (count - 1)), count, noise);
        int widest = 0;
        for (int count = Fewest; count <= Most && (step < 0 ? first + 1 : times.Length - first) >= count && Of(count).Describes(noise); count = count * 3 / 2 + 1)
            widest = count;
        return widest == 0 ? null : Of(Math.Max(Fewest, widest / 2));
    }
}
