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

    /// <summary>Reading that counts as nothing, taken off first: a tare is an act of its own.</summary>
    public double Tare { get; init; }

    /// <summary>Whether it had expired at a moment.</summary>
    public bool IsExpired(DateTimeOffset at) => at >= ValidUntil;

    /// <summary>The true value behind a reading, with what the calibration leaves uncertain.</summary>
    public Measured Correct(double reading)
    {
        double x = reading - Tare;
        double[] row = [1, x, x * x];
        double value = 0, variance = 0;
        for (int i = 0; i < 3; i++)
        {
            value += row[i] * Coefficients[i];
            for (int j = 0; j < 3; j++)
                variance += row[i] * row[j] * Covariance[3 * i + j];
        }

        return Measured.Of(value, new Input("calibration points", 0, Math.Sqrt(Math.Max(0, variance))), new Input("reference", 0, Common));
    }

    /// <summary>A channel's samples corrected, and moved by <paramref name="shift"/> standard uncertainties of the calibration.</summary>
    public Series Correct(Series series, double shift = 0)
    {
        double[] values = new double[series.Count];
        for (int i = 0; i < values.Length; i++)
        {
            double x = series.Values[i] - Tare;
            double value = Coefficients[0] + x * (Coefficients[1] + x * Coefficients[2]);
            values[i] = shift == 0 ? value : value + shift * Correct(series.Values[i]).Uncertainty;
        }

        return series with { Values = values, Resolution = series.Resolution * Math.Abs(Coefficients[1]) };
    }

    /// <summary>Whether a reading lies beyond the points by more than a tenth of their range.</summary>
    public bool IsBeyond(double reading)
    {
        double margin = 0.1 * (Highest - Lowest);
        double x = reading - Tare;
        return Highest > Lowest && (x < Lowest - margin || x > Highest + margin);
    }
}
