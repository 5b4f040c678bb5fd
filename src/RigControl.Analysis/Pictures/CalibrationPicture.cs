using System.Globalization;
using RigControl.Analysis.Calibrations;
using RigControl.Analysis.Figures;

namespace RigControl.Analysis.Pictures;

/// <summary>
/// What is to be seen of a calibration: what every point asks to be added to its reading, what the correction adds with its 95 % band, and
/// what is left over. The readings themselves would hide all of it.
/// </summary>
public static class CalibrationPicture
{
    // Of a reading that stands alone: as much to both sides of it is drawn.
    private const double Around = 0.1;

    /// <summary>A picture of a fit and the points that it was made from, in their order.</summary>
    public static FitPicture Of(CalibrationFit fit, IReadOnlyList<CalibrationPoint> points)
    {
        Calibration c = fit.Calibration;
        double[] readings = [.. points.Select(p => p.Reading)];
        (double from, double to) = Range(c, readings);
        string date = c.At.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        return new FitPicture(
            "calibration", $"Calibration of {c.Channel} on {date}{(c.UncertaintyUnknown ? ", uncertainty unknown" : "")}", $"reading [{c.Unit}]", $"to be added [{c.Unit}]",
            readings, [.. points.Select(p => p.Reference - p.Reading)], [.. Curves.Places(from, to).Select(x => Added(c, x))], [.. fit.Residuals]);
    }

    // A gain goes through nothing, and is worth seeing from there.
    private static (double From, double To) Range(Calibration c, double[] readings)
    {
        (double from, double to) = (readings.Min(), readings.Max());
        if (c.Kind == CalibrationKind.Gain)
            (from, to) = (Math.Min(0, from), Math.Max(0, to));
        double room = to > from ? 0 : Around * Math.Max(1, Math.Abs(to));
        return (from - room, to + room);
    }

    private static CurvePoint Added(Calibration c, double reading)
    {
        Measured corrected = c.Correct(reading);
        return new CurvePoint(reading, corrected.Value - reading, corrected.Interval95.Low - reading, corrected.Interval95.High - reading);
    }
}
