using RigControl.Analysis.Calibrations;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Calibrations;

/// <summary>A reading that counts as nothing: what lies on the sensor then is zero, whatever curve it has.</summary>
public class TareTests
{
    private static readonly DateTimeOffset Day = new(2026, 5, 4, 0, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData(CalibrationKind.Offset)]
    [InlineData(CalibrationKind.Gain)]
    [InlineData(CalibrationKind.Line)]
    [InlineData(CalibrationKind.Curve)]
    public void The_tared_reading_is_zero_and_known_as_well_as_it_was_read(CalibrationKind kind)
    {
        Calibration tared = Made(kind) with { Tare = 30, TareUncertainty = 0.02, TareAt = Day };
        Near.Absolute(0, tared.Correct(30).Value, 1e-12);
        double slope = (Made(kind).Correct(30.001).Value - Made(kind).Correct(29.999).Value) / 0.002;
        Near.Relative(0.02 * slope, tared.Correct(30).Uncertainty, 1e-6);
    }

    [Theory]
    [InlineData(CalibrationKind.Offset)]
    [InlineData(CalibrationKind.Gain)]
    [InlineData(CalibrationKind.Line)]
    [InlineData(CalibrationKind.Curve)]
    public void What_is_put_on_top_counts_as_the_curve_says_between_both_readings(CalibrationKind kind)
    {
        Calibration before = Made(kind), tared = before with { Tare = 30, TareAt = Day };
        Near.Relative(before.Correct(70).Value - before.Correct(30).Value, tared.Correct(70).Value, 1e-12);
        Near.Relative(before.Correct(10).Value - before.Correct(30).Value, tared.Correct(10).Value, 1e-12);
    }

    /// <summary>Source: derived; a constant falls out of a difference, and what is left of a line is its factor's uncertainty times the distance.</summary>
    [Fact]
    public void The_constant_falls_out_and_the_factor_counts_by_the_distance()
    {
        Calibration tared = Made(CalibrationKind.Line) with { Tare = 30, TareAt = Day, Common = 0 };
        Near.Relative(40 * Math.Sqrt(tared.Covariance[4]), tared.Correct(70).Uncertainty, 1e-9);
    }

    /// <summary>Source: derived; what all references share is a shift or a scale: it is nothing at the tare and at most its whole over the points.</summary>
    [Fact]
    public void What_the_references_share_grows_with_the_distance_and_is_nothing_in_an_offset()
    {
        Calibration line = Made(CalibrationKind.Line) with { Tare = 0, TareAt = Day, Covariance = new double[9], Common = 0.5 };
        Near.Absolute(0, line.Correct(0).Uncertainty, 1e-12);
        Near.Relative(0.25, line.Correct(40).Uncertainty, 1e-9);
        Near.Relative(0.5, line.Correct(80).Uncertainty, 1e-9);
        Near.Absolute(0, (Made(CalibrationKind.Offset) with { Tare = 5, TareAt = Day }).Correct(70).Uncertainty, 1e-12);
    }

    [Fact]
    public void A_tare_at_a_reading_of_nothing_is_a_tare_too() =>
        Near.Absolute(0, (Made(CalibrationKind.Line) with { Tare = 0, TareAt = Day }).Correct(0).Value, 1e-12);

    /// <summary>A file of before keeps no date of a tare; the reading that it took is zero all the same.</summary>
    [Fact]
    public void An_old_tare_without_a_date_counts() => Near.Absolute(0, (Made(CalibrationKind.Line) with { Tare = 30 }).Correct(30).Value, 1e-12);

    [Fact]
    public void Readings_lie_within_or_beyond_the_points_by_what_the_sensor_shows_and_not_by_what_lies_on_it()
    {
        Calibration tared = Made(CalibrationKind.Line) with { Tare = 60, TareAt = Day };
        Assert.False(tared.IsBeyond(75));
        Assert.True(tared.IsBeyond(95));
    }

    [Fact]
    public void Samples_are_corrected_as_single_readings_are()
    {
        Calibration tared = Made(CalibrationKind.Curve) with { Tare = 30, TareUncertainty = 0.1, TareAt = Day };
        Series series = new("N", 0, [0, 1, 2], [30, 50, 70]);
        Assert.Equal(series.Values.Select(v => tared.Correct(v).Value), tared.Correct(series).Values);
        Assert.Equal(series.Values.Select(v => tared.Correct(v).Value + tared.Correct(v).Uncertainty), tared.Correct(series, 1).Values, (a, b) => Math.Abs(a - b) < 1e-9);
    }

    /// <summary>Source: derived; with points, tare and reading drawn by chance, the interval of the difference holds it in 95 of 100.</summary>
    [Fact]
    public void The_interval_of_a_tared_reading_holds_the_truth_as_often_as_it_says()
    {
        SplitMix chance = new(31);
        int held = 0;
        double Reads(double truth) => (truth - 2) / 1.05;
        for (int run = 0; run < 2000; run++)
        {
            CalibrationPoint[] points = [.. new[] { 0.0, 20, 40, 60, 80 }.Select(t => new CalibrationPoint(Reads(t) + 0.05 * chance.Bell(), 0.05, t, 0))];
            Calibration tared = CalibrationFit.Of("force", "N", CalibrationKind.Line, points, 0, Day).Calibration with { Tare = Reads(15) + 0.05 * chance.Bell(), TareUncertainty = 0.05, TareAt = Day };
            (double low, double high) = tared.Correct(Reads(50)).Interval95;
            held += low <= 35 && 35 <= high ? 1 : 0;
        }

        // Stated scatter is believed less where the points disagree, and never more: a little above 95 %.
        Assert.InRange(held / 2000.0, 0.94, 0.99);
    }

    private static Calibration Made(CalibrationKind kind) => CalibrationFit.Of(
        "force", "N", kind,
        [.. new[] { 0.0, 20, 40, 60, 80 }.Select(r => new CalibrationPoint(r, 0.05, kind switch
        {
            CalibrationKind.Offset => r + 4,
            CalibrationKind.Gain => 1.05 * r,
            CalibrationKind.Line => 4 + 1.05 * r,
            _ => 4 + 1.05 * r + 1e-3 * r * r,
        }, 0))],
        0, Day).Calibration;
}
