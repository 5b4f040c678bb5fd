namespace RigControl.Analysis.Speed;

/// <summary>
/// A parabola through neighbouring samples that scatter alike, by least squares. Time is counted from the middle of the stretch in units
/// of its half, where the normal equations are well conditioned: hundreds of stretches are tried, and each has to be cheap.
/// </summary>
internal sealed class Parabola
{
    // A scatter seen in fewer samples is known to less than a fourteenth, and rather too small, since a stretch that scatters little is the sooner
    // taken: it counts as no less than what all samples show.
    private const int Few = 100;

    private readonly double _middle, _half, _deviation, _scatter;
    private readonly double[] _terms = new double[3];
    private readonly double[,] _inverse;
    private readonly bool _neighboursHang;

    /// <param name="times">s, rising.</param>
    /// <param name="first">Index of the first sample.</param>
    /// <param name="count">Samples, 4 and above.</param>
    /// <param name="noise">Scatter of single samples, in their unit, above 0.</param>
    public Parabola(double[] times, double[] values, int first, int count, double noise)
    {
        Count = count;
        _middle = 0.5 * (times[first] + times[first + count - 1]);
        _half = 0.5 * (times[first + count - 1] - times[first]);
        // From the first value on, so that a large level costs no digits.
        (double[] powers, double[] sums) = Moments(times, values, first);
        _inverse = Inverse(powers);
        for (int i = 0; i < 3; i++)
            _terms[i] = _inverse[i, 0] * sums[0] + _inverse[i, 1] * sums[1] + _inverse[i, 2] * sums[2];
        _terms[0] += values[first];
        (_deviation, double hang) = Residuals(times, values, first);
        _neighboursHang = count > 12 && hang > 2.2 / Math.Sqrt(count);
        _scatter = count < Few ? Math.Max(_deviation, noise) : _deviation;
    }

    public int Count { get; }

    /// <summary>Length of the stretch, s.</summary>
    public double Span => 2 * _half;

    /// <summary>Whether what is left looks like scatter: no more of it than there is, and neighbours that do not hang together.</summary>
    public bool Describes(double noise) => _deviation <= noise * (1 + 2.5 / Math.Sqrt(2.0 * (Count - 3))) && !_neighboursHang;

    /// <summary>Unit of the values.</summary>
    public double At(double time)
    {
        double x = (time - _middle) / _half;
        return _terms[0] + x * (_terms[1] + x * _terms[2]);
    }

    /// <summary>Unit of the values per s.</summary>
    public double Slope(double time) => (_terms[1] + 2 * _terms[2] * (time - _middle) / _half) / _half;

    /// <summary>Standard uncertainty of <see cref="At"/>.</summary>
    public double UncertaintyAt(double time)
    {
        double x = (time - _middle) / _half;
        return Spread(1, x, x * x);
    }

    /// <summary>Standard uncertainty of <see cref="Slope"/>.</summary>
    public double UncertaintyOfSlope(double time) => Spread(0, 1, 2 * (time - _middle) / _half) / _half;

    /// <summary>
    /// Where it is highest, s; the middle of the stretch where neither slope nor bend is distinct from none: a bend that chance made would be
    /// climbed, always upwards.
    /// </summary>
    /// <param name="distinct">Standard uncertainties from which a slope or a bend counts.</param>
    /// <param name="from">Earliest, s.</param>
    /// <param name="to">Latest, s.</param>
    public double Top(double distinct, double from, double to)
    {
        bool bends = Math.Abs(_terms[1]) >= distinct * Spread(0, 1, 0) || Math.Abs(_terms[2]) >= distinct * Spread(0, 0, 1);
        if (!bends)
            return _middle;
        return _terms[2] < 0 ? Math.Clamp(_middle - _half * _terms[1] / (2 * _terms[2]), from, to) : At(from) > At(to) ? from : to;
    }

    private double Spread(double a, double b, double c)
    {
        double[] row = [a, b, c];
        double variance = 0;
        for (int i = 0; i < 3; i++)
        {
            for (int j = 0; j < 3; j++)
                variance += row[i] * row[j] * _inverse[i, j];
        }

        return _scatter * Math.Sqrt(Math.Max(0, variance));
    }

    private (double[] Powers, double[] Sums) Moments(double[] times, double[] values, int first)
    {
        double[] powers = new double[5], sums = new double[3];
        for (int i = first; i < first + Count; i++)
        {
            double x = (times[i] - _middle) / _half, y = values[i] - values[first], square = x * x;
            powers[1] += x;
            powers[2] += square;
            powers[3] += square * x;
            powers[4] += square * square;
            sums[0] += y;
            sums[1] += x * y;
            sums[2] += square * y;
        }

        powers[0] = Count;
        return (powers, sums);
    }

    // Of the symmetric matrix of the powers' sums, by its cofactors.
    private static double[,] Inverse(double[] p)
    {
        double a = p[2] * p[4] - p[3] * p[3], b = p[2] * p[3] - p[1] * p[4], c = p[1] * p[3] - p[2] * p[2];
        double d = p[0] * p[4] - p[2] * p[2], e = p[1] * p[2] - p[0] * p[3], f = p[0] * p[2] - p[1] * p[1];
        double determinant = p[0] * a + p[1] * b + p[2] * c;
        return new[,] { { a / determinant, b / determinant, c / determinant }, { b / determinant, d / determinant, e / determinant }, { c / determinant, e / determinant, f / determinant } };
    }

    // Standard deviation of what is left, and how far neighbours hang together, -1 to 1.
    private (double Deviation, double Hang) Residuals(double[] times, double[] values, int first)
    {
        double squares = 0, products = 0, before = 0;
        for (int i = first; i < first + Count; i++)
        {
            double off = values[i] - At(times[i]);
            squares += off * off;
            products += off * before;
            before = off;
        }

        return (Math.Sqrt(squares / (Count - 3)), squares > 0 ? products / squares : 0);
    }
}
