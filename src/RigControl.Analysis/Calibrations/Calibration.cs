using System.Text.Json.Serialization;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Calibrations;

/// <summary>How a channel's readings are corrected, how well that is known, and where it came from.</summary>
public sealed record Calibration
{
    public required string Channel { get; init; }

    /// <summary>Of readings and references.</summary>
    public required string Unit { get; init; }

    public required CalibrationKind Kind { get; init; }

    /// <summary>Constant, factor and square of the correction: true = [0] + [1] × reading + [2] × reading².</summary>
    public required double[] Coefficients { get; init; }

    /// <summary>Covariance of the coefficients, row by row, three by three; zero where one is not fitted.</summary>
    public required double[] Covariance { get; init; }

    /// <summary>Standard uncertainty that all references share, such as that of the balance behind several weights, in the channel's unit.</summary>
    public required double Common { get; init; }

    /// <summary>Readings between which points were taken; beyond them the correction is a guess.</summary>
    public required double Lowest { get; init; }

    /// <inheritdoc cref="Lowest"/>
    public required double Highest { get; init; }

    /// <summary>When the points were taken.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>From then on it counts as expired; null where the builder set no end.</summary>
    public DateTimeOffset? ValidUntil { get; init; }

    /// <summary>What the readings were held against, in the builder's words.</summary>
    public string Reference { get; init; } = "";

    /// <summary>Under what conditions, in the builder's words.</summary>
    public string Conditions { get; init; } = "";

    /// <summary>Rig that the channel belongs to.</summary>
    public string Rig { get; init; } = "";

    /// <summary>Degrees of freedom of <see cref="Covariance"/>; null where it comes from stated uncertainties and is no estimate.</summary>
    public double? Freedom { get; init; }

    /// <summary>Whether the points tell nothing of how well the correction is known: none was stated, and none is left over to judge by.</summary>
    public bool UncertaintyUnknown { get; init; }

    /// <summary>Reading that counts as nothing, where there was a tare.</summary>
    public double Tare { get; init; }

    /// <summary>Standard uncertainty of the reading at the tare, in the channel's unit.</summary>
    public double TareUncertainty { get; init; }

    /// <summary>When the tare was taken, an act of its own; null where there was none, and in old files, which kept no date of it.</summary>
    public DateTimeOffset? TareAt { get; init; }

    /// <summary>Whether a reading counts as nothing.</summary>
    [JsonIgnore]
    public bool IsTared => TareAt is not null || Tare != 0;

    /// <summary>Whether nothing but a tare was ever taken: the scale is the sensor's own.</summary>
    [JsonIgnore]
    public bool IsOnlyTared => IsTared && !UncertaintyUnknown && Common == 0 && Coefficients is [0, 1, 0] && Covariance.All(c => c == 0);

    /// <summary>Whether it had expired at a moment.</summary>
    public bool IsExpired(DateTimeOffset at) => at >= ValidUntil;

    /// <summary>The true value behind a reading, with what the calibration leaves uncertain.</summary>
    public Measured Correct(double reading) => Measured.Of(
        ValueOf(reading),
        new Input("calibration points", 0, OfPoints(reading), Freedom ?? double.PositiveInfinity),
        new Input("reference", 0, OfReference(reading)),
        new Input("tare", 0, OfTare));

    /// <summary>A channel's samples corrected, and moved by <paramref name="shift"/> standard uncertainties of the calibration.</summary>
    public Series Correct(Series series, double shift = 0)
    {
        double[] values = new double[series.Count];
        for (int i = 0; i < values.Length; i++)
        {
            double reading = series.Values[i];
            values[i] = ValueOf(reading) + (shift == 0 ? 0 : shift * Measured.Combine(OfPoints(reading), OfReference(reading), OfTare));
        }

        return series with { Values = values, Resolution = series.Resolution * Math.Abs(Coefficients[1]) };
    }

    /// <summary>Whether a reading lies beyond the points by more than a tenth of their range.</summary>
    public bool IsBeyond(double reading)
    {
        double margin = 0.1 * (Highest - Lowest);
        return Highest > Lowest && (reading < Lowest - margin || reading > Highest + margin);
    }

    // With a tare, the difference to the corrected reading that counts as nothing: the constant falls out, and the curve stays that of the
    // sensor, which bends by its readings and not by what lies on it.
    private double ValueOf(double x) => IsTared
        ? (x - Tare) * (Coefficients[1] + (x + Tare) * Coefficients[2])
        : Coefficients[0] + x * (Coefficients[1] + x * Coefficients[2]);

    private double OfPoints(double x)
    {
        ReadOnlySpan<double> row = IsTared ? [0, x - Tare, x * x - Tare * Tare] : [1, x, x * x];
        double variance = 0;
        for (int i = 0; i < 3; i++)
        {
            for (int j = 0; j < 3; j++)
                variance += row[i] * row[j] * Covariance[3 * i + j];
        }

        return Math.Sqrt(Math.Max(0, variance));
    }

    // What all references share may be a shift, which a tare takes away, or a wrong scale, which grows with the distance from the tare up to
    // its whole over the points: nobody says which, and the worse one counts. A factor that was not fitted cannot be wrong by it.
    private double OfReference(double x)
    {
        if (!IsTared)
            return Common;
        double span = Kind == CalibrationKind.Gain ? Math.Max(Math.Abs(Lowest), Math.Abs(Highest)) : Highest - Lowest;
        return Kind == CalibrationKind.Offset || !(span > 0) ? 0 : Common * Math.Abs(x - Tare) / span;
    }

    private double OfTare => IsTared ? Math.Abs(Coefficients[1] + 2 * Tare * Coefficients[2]) * TareUncertainty : 0;
}
