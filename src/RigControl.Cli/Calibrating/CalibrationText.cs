using System.Globalization;
using RigControl.Analysis.Calibrations;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Uncertainty;
using RigControl.Cli.Output;

namespace RigControl.Cli.Calibrating;

/// <summary>Shows a calibration with its points and what the correction leaves of them.</summary>
internal static class CalibrationText
{
    public static void Show(Calibration calibration, IReadOnlyList<(CalibrationPoint Point, double Residual)> points, bool json, string closing)
    {
        if (json)
        {
            JsonText.Write(new { calibration, points = points.Select(p => new { reading = p.Point.Reading, reference = p.Point.Reference, residual = p.Residual }) });
            return;
        }

        Console.WriteLine($"{calibration.Channel} of {calibration.Rig}, {calibration.Kind.ToString().ToLowerInvariant()}: {Formula(calibration)} {calibration.Unit}");
        foreach ((CalibrationPoint point, double residual) in points)
        {
            Measured corrected = calibration.Correct(point.Reading);
            (string value, string uncertainty) = Rounding.Of(corrected.Value, calibration.UncertaintyUnknown ? null : corrected.Uncertainty);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  reads {point.Reading:G6}, reference {point.Reference:G6}, corrected {value}{(uncertainty.Length > 0 ? " ± " + uncertainty : "")}, left over {residual:+0.####;-0.####;0}"));
        }

        if (calibration.UncertaintyUnknown)
            Console.WriteLine("how well it is known is unknown: state --point-uncertainty, or take more points than the correction needs; figures say so until then");
        if (calibration.ValidUntil is { } until)
            Console.WriteLine($"valid until {until.UtcDateTime:yyyy-MM-dd}");
        Console.WriteLine(closing);
    }

    private static string Formula(Calibration c)
    {
        string text = c.IsTared
            ? string.Create(CultureInfo.InvariantCulture, $"true = {c.Coefficients[1]:G8} × (reading − {c.Tare:G6})")
            : string.Create(CultureInfo.InvariantCulture, $"true = {c.Coefficients[0]:G6} + {c.Coefficients[1]:G8} × reading");
        string square = c.IsTared ? string.Create(CultureInfo.InvariantCulture, $"(reading² − {c.Tare * c.Tare:G6})") : "reading²";
        return c.Coefficients[2] == 0 ? text : text + string.Create(CultureInfo.InvariantCulture, $" + {c.Coefficients[2]:G6} × {square}");
    }
}
