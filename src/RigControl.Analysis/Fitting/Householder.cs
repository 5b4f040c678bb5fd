using System.Numerics;

namespace RigControl.Analysis.Fitting;

/// <summary>
/// A = Q R by reflections, without forming Q. Columns lie apart, so that a long trace with few parameters is walked in order.
/// Source: G. Golub, Numer. Math. 7 (1965) 206 (from memory).
/// </summary>
internal sealed class Householder
{
    // Between them no square that counts has overflowed or vanished.
    private const double SmallestSquares = 1e-250, LargestSquares = 1e250;

    private readonly double[][] _columns;
    private readonly double[] _diagonal;
    private readonly double[] _scale;

    /// <summary>Factors; the columns are overwritten. At least as many rows as columns.</summary>
    public Householder(double[][] columns)
    {
        _columns = columns;
        _diagonal = new double[columns.Length];
        _scale = new double[columns.Length];
        for (int j = 0; j < columns.Length; j++)
            Reflect(j);
    }

    public int Columns => _columns.Length;

    /// <summary>Element of R, row at most column.</summary>
    public double R(int row, int column) => row == column ? _diagonal[row] : _columns[column][row];

    /// <summary>b becomes Qᵀ b.</summary>
    public void Turn(Span<double> b)
    {
        for (int j = 0; j < Columns; j++)
            Apply(j, b);
    }

    /// <summary>b becomes Q b.</summary>
    public void TurnBack(Span<double> b)
    {
        for (int j = Columns - 1; j >= 0; j--)
            Apply(j, b);
    }

    /// <summary>The first entries of b become x with R x = b; false where R is singular.</summary>
    public bool SolveUpper(Span<double> b)
    {
        for (int i = Columns - 1; i >= 0; i--)
        {
            double sum = b[i];
            for (int j = i + 1; j < Columns; j++)
                sum -= R(i, j) * b[j];
            if (_diagonal[i] == 0)
                return false;
            b[i] = sum / _diagonal[i];
        }

        return true;
    }

    /// <summary>The first entries of b become x with Rᵀ x = b; R is not singular.</summary>
    public void SolveLower(Span<double> b)
    {
        for (int i = 0; i < Columns; i++)
        {
            double sum = b[i];
            for (int j = 0; j < i; j++)
                sum -= R(j, i) * b[j];
            b[i] = sum / _diagonal[i];
        }
    }

    /// <summary>(Rᵀ R)⁻¹, which is (Aᵀ A)⁻¹; null where R is singular.</summary>
    public double[,]? InverseSquare()
    {
        int n = Columns;
        double[,] inverse = new double[n, n];
        double[] unit = new double[n];
        for (int j = 0; j < n; j++)
        {
            Array.Clear(unit);
            unit[j] = 1;
            if (Array.IndexOf(_diagonal, 0.0) >= 0)
                return null;
            SolveLower(unit);
            SolveUpper(unit);
            for (int i = 0; i < n; i++)
                inverse[i, j] = unit[i];
        }

        return inverse;
    }

    private void Reflect(int j)
    {
        Span<double> v = _columns[j].AsSpan(j);
        double norm = Norm(v);
        if (norm > 0)
        {
            double alpha = v[0] > 0 ? -norm : norm;
            _diagonal[j] = alpha;
            v[0] -= alpha;
            _scale[j] = -1 / (alpha * v[0]);
        }

        for (int k = j + 1; k < Columns; k++)
            Apply(j, _columns[k]);
    }

    private void Apply(int j, Span<double> b)
    {
        if (_scale[j] == 0)
            return;
        ReadOnlySpan<double> v = _columns[j].AsSpan(j);
        Span<double> part = b.Slice(j, v.Length);
        double factor = _scale[j] * Dot(v, part);
        int i = 0;
        for (; i <= v.Length - Vector<double>.Count; i += Vector<double>.Count)
            (new Vector<double>(part[i..]) - factor * new Vector<double>(v[i..])).CopyTo(part[i..]);
        for (; i < v.Length; i++)
            part[i] -= factor * v[i];
    }

    /// <summary>Length of a column.</summary>
    internal static double Norm(ReadOnlySpan<double> v)
    {
        double squares = Dot(v, v);
        return squares is > SmallestSquares and < LargestSquares ? Math.Sqrt(squares) : Scaled(v);
    }

    private static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        Vector<double> sums = Vector<double>.Zero;
        int i = 0;
        for (; i <= a.Length - Vector<double>.Count; i += Vector<double>.Count)
            sums += new Vector<double>(a[i..]) * new Vector<double>(b[i..]);
        double sum = Vector.Sum(sums);
        for (; i < a.Length; i++)
            sum += a[i] * b[i];
        return sum;
    }

    // Scaled by the largest entry, so that neither squares overflow nor vanish.
    private static double Scaled(ReadOnlySpan<double> v)
    {
        double largest = 0;
        foreach (double x in v)
            largest = Math.Max(largest, Math.Abs(x));
        if (largest is 0 or double.PositiveInfinity)
            return largest;
        double sum = 0;
        foreach (double x in v)
            sum += x / largest * (x / largest);
        return largest * Math.Sqrt(sum);
    }
}
