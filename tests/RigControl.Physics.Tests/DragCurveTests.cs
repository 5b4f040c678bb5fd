namespace RigControl.Physics.Tests;

public class DragCurveTests
{
    private const double Radius = 0.06;
    private static readonly Air Air = Air.AtTwentyDegrees;
    private static readonly Drag Drag = new(0.01, 1e-5, 3e-8, 0.02);

    [Fact]
    public void The_table_follows_the_law_of_windage_within_a_thousandth()
    {
        var curve = new DragCurve(Drag, Air, Radius, 1, 2000);
        for (double speed = 40; speed < 2000; speed += 1.7)
            Near.Relative(Drag.Torque(speed) + Windage.Torque(Air, Radius, speed), curve.Torque(speed, out _), 1e-3);
    }

    [Fact]
    public void Without_windage_the_curve_is_the_drag_alone()
    {
        var curve = new DragCurve(Drag, Air, Radius, 0, 2000);
        Near.Relative(Drag.Torque(777), curve.Torque(777, out double slope), 1e-12);
        Near.Relative(Drag.Slope(777), slope, 1e-12);
    }

    [Fact]
    public void Half_a_share_is_half_the_windage()
    {
        var none = new DragCurve(Drag, Air, Radius, 0, 2000);
        var half = new DragCurve(Drag, Air, Radius, 0.5, 2000);
        var whole = new DragCurve(Drag, Air, Radius, 1, 2000);
        double bare = none.Torque(900, out _);
        Near.Relative((whole.Torque(900, out _) - bare) / 2, half.Torque(900, out _) - bare, 1e-9);
    }

    [Fact]
    public void The_slope_is_the_change_of_torque_within_an_interval()
    {
        var curve = new DragCurve(Drag, Air, Radius, 1, 2000);
        double at = curve.Torque(1000.1, out double slope);
        Near.Relative((curve.Torque(1000.2, out _) - at) / 0.1, slope, 1e-3);
    }

    [Fact]
    public void Drag_goes_on_rising_beyond_the_table()
    {
        var curve = new DragCurve(Drag, Air, Radius, 1, 500);
        Assert.True(curve.Torque(2000, out _) > curve.Torque(1000, out _));
        Assert.True(curve.Torque(1000, out _) > curve.Torque(500, out _));
    }

    [Fact]
    public void At_rest_the_curve_holds_what_the_drag_holds()
        => Assert.Equal(0.02, new DragCurve(Drag, Air, Radius, 1, 500).Holding);
}
