using RigControl.Analysis.Figures;
using RigControl.Analysis.Pictures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Tests.Pictures;

/// <summary>What a picture shows is what the figure beside it says.</summary>
public class FitPicturesTests
{
    private const double Final = 8000;
    private const double Constant = 0.8;
    private const double Release = 8;

    private static readonly Article Free = Articles.Disc with
    {
        Controller = new ControllerProfile
        {
            Mode = ControllerMode.OneWay, StopPulse = 1000, MinimumPulse = 1000, MaximumPulse = 2000, Direction = PulseDirection.Longer,
            BrakesAtStop = false, WhenPulsesCease = CeasedPulseBehaviour.Stops, ArmingTime = TimeSpan.Zero,
        },
    };

    // A first-order rise from 1 s on, and a linear run-down of 400 rpm a second after the stop, with a scatter that is the same each time.
    private static double Speed(double t) => t < 1 ? 0
        : t < Release ? Final * (1 - Math.Exp(-(t - 1) / Constant))
        : Math.Max(0, Final * (1 - Math.Exp(-(Release - 1) / Constant)) - 400 * (t - Release));

    private static double Scatter(double t, double size) => size * (Math.Sin(t * 7919) + Math.Sin(t * 6841));

    private static (IReadOnlyList<FitPicture> Pictures, IReadOnlyList<string> Reasons) Draw() => FitPictures.Of(new FigureInput(
        new MadeTrace()
            .Channel("rotor.speed", "rpm", t => Math.Max(0, Speed(t) + (Speed(t) > 0 ? Scatter(t, 4) : 0)), to: 30)
            .Channel("output.throttle", "%", t => t is >= 1 and < Release ? 60 : 0, to: 30)
            .Channel("battery.voltage", "V", t => 15 - 0.05 * Current(t) + Scatter(t, 0.002), to: 30)
            .Channel("battery.current", "A", t => Current(t) + Scatter(t, 0.02), to: 30)
            .Channel("motor.temperature", "degC", t => t < Release ? 20 + 3 * (t - 1) : 20 + 21 * Math.Exp(-(t - Release) / 6), to: 30, step: 0.1, resolution: 0.01)
            .Channel("ambient.temperature", "degC", _ => 20, to: 30, step: 0.1, resolution: 0.1)
            .Repeat(1, 5, Release, 29).Build(),
        Free, FigureContext.UsualRestSpeed));

    private static double Current(double t) => t is >= 1 and < Release ? 2 + 20 * Math.Exp(-(t - 1) / Constant) : 0.1;

    private static FitPicture Picture(string name) => Draw().Pictures.Single(p => p.Name == name);

    [Theory]
    [InlineData("spin-up-1")]
    [InlineData("coast-down-1")]
    [InlineData("torque-1")]
    [InlineData("mechanical-power-1")]
    [InlineData("efficiency-1")]
    [InlineData("pack-1")]
    [InlineData("cooling-motor-temperature-1")]
    public void Every_picture_has_a_residual_for_each_datum_and_a_band_around_its_curve(string name)
    {
        FitPicture picture = Picture(name);
        Assert.Equal((picture.X.Length, picture.X.Length), (picture.Y.Length, picture.Residuals.Length));
        Assert.All(picture.Curve, c => Assert.True(c.Low <= c.Y && c.Y <= c.High, $"{c}"));
        Assert.Equal(picture.Curve.Select(c => c.X).Order(), picture.Curve.Select(c => c.X));
        // Stretches of a rise begin some way up it; what is drawn over time begins with its data.
        Assert.InRange(picture.Curve[0].X, picture.Across == "time [s]" ? picture.X.Min() - 1 : 0, picture.X.Max());
    }

    [Fact]
    public void The_curve_of_a_rise_goes_through_the_truth_and_leaves_only_the_scatter()
    {
        FitPicture picture = Picture("spin-up-1");
        Assert.All(picture.Curve.Where(c => c.X > 1.5), c => Near.Absolute(Speed(c.X), c.Y, 6));
        Assert.InRange(picture.Residuals.Skip(100).Max(Math.Abs), 2, 20);
    }

    [Fact]
    public void The_curve_of_a_run_down_goes_through_the_truth()
    {
        FitPicture picture = Picture("coast-down-1");
        Assert.All(picture.Curve, c => Near.Absolute(Speed(c.X), c.Y, 5));
        Assert.True(picture.X[0] >= Release);
    }

    [Fact]
    public void The_line_of_a_pack_falls_by_its_resistance()
    {
        IReadOnlyList<CurvePoint> line = Picture("pack-1").Curve;
        Near.Relative(-0.05, (line[^1].Y - line[0].Y) / (line[^1].X - line[0].X), 0.05);
    }

    /// <summary>A pack of 50 mOhm that loses a volt for each 100 C drawn: the fall with the charge is no resistance.</summary>
    [Fact]
    public void The_line_of_a_pack_that_empties_is_the_one_that_its_figure_tells_and_leaves_only_the_scatter()
    {
        double Drawn(double t) => t < 1 ? 0 : 2 * (t - 1) + 16 * (1 - Math.Exp(-(t - 1) / Constant));
        FigureInput input = new(
            new MadeTrace()
                .Channel("rotor.speed", "rpm", Speed, to: Release)
                .Channel("battery.voltage", "V", t => 15 - 0.05 * Current(t) - 0.01 * Drawn(t) + Scatter(t, 0.002), to: Release)
                .Channel("battery.current", "A", Current, to: Release)
                .Repeat(1, 5, Release, Release).Build(),
            Free, FigureContext.UsualRestSpeed);
        FitPicture picture = FitPictures.Of(input).Pictures.Single(p => p.Name == "pack-1");
        double told = FigureCatalog.Compute(["pack-resistance"], input).Single().Value!.Value;
        Near.Relative(-told, (picture.Curve[^1].Y - picture.Curve[0].Y) / (picture.Curve[^1].X - picture.Curve[0].X), 1e-6);
        Near.Relative(0.05, told, 0.02);
        Assert.InRange(picture.Residuals.Max(Math.Abs), 0.002, 0.006);
    }

    /// <summary>Source: derived; a part of one lump under a load that is switched on and off.</summary>
    [Fact]
    public void The_curve_of_a_heated_part_goes_through_the_truth_and_one_that_stayed_cold_has_none()
    {
        double Load(double t) => t is >= 10 and < 210 ? 20 : 0;
        double Warm(double t) => 20 + 80 * (t < 10 ? 0 : t < 210 ? 1 - Math.Exp(-(t - 10) / 100) : (1 - Math.Exp(-2)) * Math.Exp(-(t - 210) / 100));
        var (pictures, reasons) = FitPictures.Of(new FigureInput(
            new MadeTrace()
                .Channel("battery.current", "A", Load, 0, 600, 0.1)
                .Channel("battery.temperature", "degC", t => Warm(t) + Scatter(t, 0.1), 0, 600, 1)
                .Channel("ambient.temperature", "degC", t => 20 + Scatter(t, 0.1), 0, 600, 1)
                .Repeat(10, 12, 210, 600).Build(),
            Free, FigureContext.UsualRestSpeed));
        FitPicture picture = Assert.Single(pictures, p => p.Name.StartsWith("heating", StringComparison.Ordinal));
        Assert.Equal("heating-battery-temperature-1", picture.Name);
        Assert.All(picture.Curve, c => Near.Absolute(Warm(c.X), c.Y, 0.5));
        Assert.All(picture.X.Zip(picture.Y, picture.Residuals), p => Near.Absolute(Warm(p.First), p.Second - p.Third, 0.5));
        Assert.DoesNotContain(reasons, r => r.Contains("heating", StringComparison.Ordinal));
    }

    [Fact]
    public void The_curve_of_a_cooling_part_goes_through_the_truth()
    {
        FitPicture picture = Picture("cooling-motor-temperature-1");
        Assert.All(picture.Curve, c => Near.Absolute(20 + 21 * Math.Exp(-(c.X - Release) / 6), c.Y, 0.3));
    }

    [Fact]
    public void A_fit_that_the_data_do_not_give_is_left_out_with_its_reason()
    {
        var (pictures, reasons) = FitPictures.Of(new FigureInput(
            new MadeTrace().Channel("output.throttle", "%", t => t > 1 ? 50 : 0).Repeat(1, 5, 8, 19).Build(), Free, FigureContext.UsualRestSpeed));
        Assert.Empty(pictures);
        Assert.Equal(10, reasons.Count);
        Assert.All(reasons, r => Assert.StartsWith("no picture of ", r, StringComparison.Ordinal));
    }
}
