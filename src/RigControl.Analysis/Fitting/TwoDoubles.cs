namespace RigControl.Analysis.Fitting;

/// <summary>
/// A sum kept as two doubles, about 32 digits: what is lost by rounding is carried along (Dekker, Numer. Math. 18 (1971) 224).
/// Used where a difference of nearly equal numbers decides, such as the residuals of an iterative refinement.
/// </summary>
public struct TwoDoubles
{
    private double _high, _low;

    /// <summary>The sum, rounded once.</summary>
    public readonly double Value => _high + _low;

    /// <summary>Adds a number.</summary>
    public void Add(double x)
    {
        double sum = _high + x;
        double back = sum - _high;
        _low += (_high - (sum - back)) + (x - back);
        _high = sum;
    }

    /// <summary>Adds a product without rounding it.</summary>
    public void AddProduct(double x, double y)
    {
        double product = x * y;
        Add(product);
        _low += Math.FusedMultiplyAdd(x, y, -product);
    }
}
