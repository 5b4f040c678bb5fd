using RigControl.Analysis.Calibrations;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Tests.Support;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Calibrations;

public class CalibrationFitTests
{
    private static readonly DateTimeOffset Day = new(2026, 5, 4, 0, 0, 0, TimeSpan.Zero);

    /// <summary>
    /// Source: JCGM 100:2008, H.3, calibration of a thermometer at 11 points: intercept −0.1712 degC and slope 0.00218 of the correction
    /// against t − 20 degC, standard deviations 0.0029 and 0.00067, prediction at 30 degC −0.1494 ± 0.0041 (data and results from memory).
    /// </summary>
    [Fact]
    public void The_thermometer_of_the_guide_is_corrected_as_the_guide_says()
    {
        double[] readings = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511];
        double[] corrections = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160];
        CalibrationPoint[] points = [.. readings.Select((r, i) => new CalibrationPoint(r - 20, 1e-4, r - 20 + corrections[i], 0))];
        Calibration found = CalibrationFit.Of("bath", "degC", CalibrationKind.Line, points, 0, Day).Calibration;
        Near.Absolute(-0.1712, found.Coefficients[0], 6e-5);
        Near.Absolute(0.00218, found.Coefficients[1] - 1, 6e-6);
        Near.Absolute(0.0029, Math.Sqrt(found.Covariance[0]), 6e-5);
        Near.Absolute(0.00067, Math.Sqrt(found.Covariance[4]), 6e-6);
        Measured at30 = found.Correct(10);
        Near.Absolute(-0.1494, at30.Value - 10, 6e-5);
        Near.Absolute(0.0041, at30.Uncertainty, 6e-5);
    }

    [Fact]
    public void A_single_weight_gives_an_offset_and_no_more()
    {
        Calibration offset = CalibrationFit.Of("mass", "g", CalibrationKind.Offset, [new(102, 0.3, 100, 0.05)], 0.1, Day).Calibration;
        Near.Absolute(48, offset.Correct(50).Value, 1e-9);
        Near.Relative(Measured.Combine(0.3, 0.05, 0.1), offset.Correct(50).Uncertainty, 1e-6);
        Assert.Contains("at least 3", Assert.Throws<FitFailedException>(() => CalibrationFit.Of("mass", "g", CalibrationKind.Line, [new(102, 0.3, 100, 0.05)], 0, Day)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_curve_gives_back_what_bent_the_readings()
    {
        double[] readings = [0, 10, 20, 40, 60, 80];
        CalibrationPoint[] points = [.. readings.Select(r => new CalibrationPoint(r, 0.001, 0.5 + 1.02 * r + 1e-3 * r * r, 0.001))];
        CalibrationFit fit = CalibrationFit.Of("force", "N", CalibrationKind.Curve, points, 0, Day);
        Near.Absolute(0.5 + 1.02 * 50 + 2.5, fit.Calibration.Correct(50).Value, 1e-6);
        Assert.All(fit.Residuals, r => Near.Absolute(0, r, 1e-6));
    }

    [Fact]
    public void The_reference_that_all_points_share_does_not_average_out()
    {
        CalibrationPoint[] points = [.. Enumerable.Range(0, 100).Select(i => new CalibrationPoint(i, 0.1, i, 0))];
        Assert.True(CalibrationFit.Of("v", "V", CalibrationKind.Line, points, 0.5, Day).Calibration.Correct(50).Uncertainty >= 0.5);
    }

    [Fact]
    public void Points_all_at_one_reading_cannot_tell_a_gain_from_an_offset() =>
        Assert.Throws<FitFailedException>(() => CalibrationFit.Of("v", "V", CalibrationKind.Line, [new(5, 0.1, 5, 0), new(5, 0.1, 5, 0), new(5, 0.1, 5, 0)], 0, Day));

    [Fact]
    public void The_interval_of_a_corrected_reading_holds_the_truth_as_often_as_it_says()
    {
        SplitMix chance = new(21);
        int held = 0;
        for (int run = 0; run < 1000; run++)
        {
            List<CalibrationPoint> points = [];
            foreach (double truth in new[] { 0.0, 4, 8, 12, 16 })
                points.Add(new CalibrationPoint((truth - 0.3) / 1.01 + 0.02 * chance.Bell(), 0.02, truth, 0));
            (double low, double high) = CalibrationFit.Of("v", "V", CalibrationKind.Line, points, 0, Day).Calibration.Correct((10 - 0.3) / 1.01).Interval95;
            held += low <= 10 && 10 <= high ? 1 : 0;
        }

        // Scatter that is stated and then believed less where the points disagree: a little more than 95 %.
        Assert.InRange(held, 930, 995);
    }

    [Fact]
    public void A_tare_is_taken_off_before_the_curve()
    {
        Calibration gain = CalibrationFit.Of("mass", "g", CalibrationKind.Gain, [new(50, 0.1, 100, 0.1)], 0, Day).Calibration with { Tare = 3 };
        Near.Absolute(20, gain.Correct(13).Value, 1e-9);
    }
}
