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

    /// <summary>Source: derived; least squares of a line through nothing, (1 × 1.2 + 10 × 10 + 100 × 100) / (1 + 100 + 10000).</summary>
    [Fact]
    public void Points_that_say_nothing_of_themselves_count_alike()
    {
        Calibration gain = CalibrationFit.Of("v", "V", CalibrationKind.Gain, [new(1, 0, 1.2, 0), new(10, 0, 10, 0), new(100, 0, 100, 0)], 0, Day).Calibration;
        Near.Relative(10101.2 / 10101, gain.Coefficients[1], 1e-12);
        // Left over: 0.2, and next to nothing at 10 and 100; two degrees of freedom, over the root of the sum of squares of the readings.
        double[] left = [1.2 - gain.Coefficients[1], 10 - 10 * gain.Coefficients[1], 100 - 100 * gain.Coefficients[1]];
        Near.Relative(Math.Sqrt(left.Sum(l => l * l) / 2 / 10101), Math.Sqrt(gain.Covariance[4]), 1e-6);
        Assert.Equal((2, false), (gain.Freedom, gain.UncertaintyUnknown));
    }

    [Theory]
    [InlineData(CalibrationKind.Gain, 1)]
    [InlineData(CalibrationKind.Offset, 1)]
    [InlineData(CalibrationKind.Gain, 2)]
    [InlineData(CalibrationKind.Line, 3)]
    public void Points_without_freedom_or_without_anything_left_over_are_of_unknown_uncertainty(CalibrationKind kind, int count)
    {
        CalibrationPoint[] points = [.. Enumerable.Range(1, count).Select(i => new CalibrationPoint(10 * i, 0, 11 * i, 0))];
        Calibration found = CalibrationFit.Of("v", "V", kind, points, 0, Day).Calibration;
        Assert.True(found.UncertaintyUnknown);
        Near.Relative(11, found.Correct(10).Value, 1e-9);
    }

    [Fact]
    public void A_stated_uncertainty_is_known_with_a_single_point_too()
    {
        Calibration gain = CalibrationFit.Of("v", "V", CalibrationKind.Gain, [new(10, 0.1, 11, 0)], 0, Day).Calibration;
        Assert.False(gain.UncertaintyUnknown);
        Near.Relative(0.1, gain.Correct(10).Uncertainty, 1e-6);
    }

    [Fact]
    public void A_point_that_stands_still_among_others_that_scatter_is_not_taken_for_exact()
    {
        CalibrationPoint[] points = [new(1, 0, 1.3, 0), new(10, 0.1, 10, 0), new(20, 0.1, 20, 0), new(30, 0.1, 30, 0)];
        double[] left = [.. CalibrationFit.Of("v", "V", CalibrationKind.Gain, points, 0, Day).Residuals];
        Assert.True(Math.Abs(left[0]) > 0.2, $"left over {left[0]}");
        Assert.True(Math.Abs(left[3]) < 0.05, $"left over {left[3]}");
    }

    /// <summary>Source: derived; few points that state nothing have an interval by Student's t, which holds as often as it says.</summary>
    [Fact]
    public void The_interval_from_what_is_left_over_holds_the_truth_as_often_as_it_says()
    {
        SplitMix chance = new(22);
        int held = 0;
        for (int run = 0; run < 2000; run++)
        {
            CalibrationPoint[] points = [.. new[] { 0.0, 5, 10, 15 }.Select(truth => new CalibrationPoint((truth - 0.3) / 1.01 + 0.02 * chance.Bell(), 0, truth, 0))];
            (double low, double high) = CalibrationFit.Of("v", "V", CalibrationKind.Line, points, 0, Day).Calibration.Correct((12 - 0.3) / 1.01).Interval95;
            held += low <= 12 && 12 <= high ? 1 : 0;
        }

        Assert.InRange(held / 2000.0, 0.93, 0.97);
    }
}
