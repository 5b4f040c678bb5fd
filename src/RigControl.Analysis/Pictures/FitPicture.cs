namespace RigControl.Analysis.Pictures;

/// <summary>What is to be seen of a fit: the data, the curve through them, how well the curve is known, and what is left over.</summary>
/// <param name="Name">Kebab-case, for files.</param>
/// <param name="Title">In a few words.</param>
/// <param name="Across">Quantity and unit of the horizontal axis.</param>
/// <param name="Up">Quantity and unit of the vertical axis.</param>
/// <param name="X">Of the data.</param>
/// <param name="Y">Of the data, as many as <paramref name="X"/>.</param>
/// <param name="Curve">The fit, in order of x.</param>
/// <param name="Residuals">Datum less curve, as many as <paramref name="X"/>.</param>
public sealed record FitPicture(
    string Name, string Title, string Across, string Up, double[] X, double[] Y, IReadOnlyList<CurvePoint> Curve, double[] Residuals)
{
    /// <summary>What the curve is, for a legend.</summary>
    public string Line { get; init; } = "fit";
}

/// <summary>One point of a fitted curve with the 95 % band of the curve there.</summary>
public readonly record struct CurvePoint(double X, double Y, double Low, double High);
