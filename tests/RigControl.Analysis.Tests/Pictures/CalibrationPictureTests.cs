using RigControl.Analysis.Calibrations;
using RigControl.Analysis.Pictures;
using RigControl.Analysis.Tests.Support;

namespace RigControl.Analysis.Tests.Pictures;

/// <summary>A calibration to look at: what the points ask for, what the correction adds, and how well that is known.</summary>
public class CalibrationPictureTests
{
    private static readonly CalibrationPoint[] Points = [new(1, 0.01, 1.1, 0), new(5, 0.01, 5.28, 0), new(10, 0.01, 10.55, 0), new(20, 0.01, 21.05, 0)];

    [Fact]
    public void Points_lie_where_the_reference_differs_from_the_reading_and_the_curve_leaves_their_residuals()
    {
        FitPicture picture = Picture(CalibrationKind.Line, Points);
        Assert.Equal(Points.Select(p => p.Reference - p.Reading), picture.Y);
        for (int i = 0; i < Points.Length; i++)
            Near.Absolute(picture.Residuals[i], picture.Y[i] - Curves.At(picture.Curve, picture.X[i]), 1e-6);
        Assert.Equal(("reading [A]", "to be added [A]"), (picture.Across, picture.Up));
        Assert.Contains("battery.current on 2026-05-04", picture.Title, StringComparison.Ordinal);
    }

    [Fact]
    public void The_band_is_narrowest_among_the_points_and_holds_the_curve()
    {
        FitPicture picture = Picture(CalibrationKind.Line, Points);
        double Width(int k) => picture.Curve[k].High - picture.Curve[k].Low;
        Assert.All(picture.Curve, c => Assert.InRange(c.Y, c.Low, c.High));
        Assert.True(Width(picture.Curve.Count / 2) < Width(0) && Width(picture.Curve.Count / 2) < Width(picture.Curve.Count - 1));
    }

    [Fact]
    public void A_gain_is_seen_from_nothing_and_a_single_point_with_room_around_it()
    {
        Assert.Equal((0, 20), Ends(Picture(CalibrationKind.Gain, Points)));
        (double from, double to) = Ends(Picture(CalibrationKind.Offset, Points[..1]));
        Assert.True(from < 1 && to > 1);
    }

    [Fact]
    public void A_picture_without_a_band_says_that_nobody_knows_it() =>
        Assert.EndsWith("uncertainty unknown", Picture(CalibrationKind.Gain, [new(10, 0, 11, 0)]).Title, StringComparison.Ordinal);

    private static (double, double) Ends(FitPicture picture) => (picture.Curve[0].X, picture.Curve[^1].X);

    private static FitPicture Picture(CalibrationKind kind, CalibrationPoint[] points) =>
        CalibrationPicture.Of(CalibrationFit.Of("battery.current", "A", kind, points, 0, new DateTimeOffset(2026, 5, 4, 0, 0, 0, TimeSpan.Zero)), points);
}
