using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Pictures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Pictures;

/// <summary>Torque, power and efficiency over speed, power over throttle, and the run-down with a ring: pictures and numbers, beside what was really so.</summary>
public class DrivePicturesTests
{
    private const double RpmPerRad = 30 / Math.PI;

    // Without air, so that the drag has terms of its own: up a ramp, along the controller's limit, and down to the steady speed.
    private static readonly BenchRecord Disc = new(new BenchParameters
    {
        Rotor = new BenchParameters().Rotor with { Drag = new Drag(0.004, 2e-6, 1e-8, 0.004), WindageShare = 0 },
    }, until: 40);

    private static readonly (IReadOnlyList<FitPicture> Pictures, IReadOnlyList<string> Reasons) Drawn = FitPictures.Of(Disc.Input());
    private static readonly IReadOnlyList<DriveCurve> Curves = DriveCurves.Of(Disc.Input());

    private static FitPicture Picture(string name) => Drawn.Pictures.SingleOrDefault(p => p.Name == name) ?? throw new InvalidOperationException(string.Join("; ", Drawn.Reasons));

    private static DriveCurve Curve(string name) => Curves.Single(c => c.Name == name);

    // Torque of the motor when the rise first came to a speed.
    private static double TrueTorque(double rpm) => Disc.Parameters.Motor.TorqueConstant * Disc.Truth.First(t => t.Speed * RpmPerRad >= rpm).MotorCurrent;

    [Fact]
    public void Torque_and_power_over_speed_are_the_bench_s_own()
    {
        foreach (CurvePoint point in Curve("torque").Points.Where(p => p.X > 1500))
            Near.Absolute(TrueTorque(point.X), point.Y, 0.05 * Curve("torque").Points.Max(p => p.Y), $"torque at {point.X:0} rpm");
        foreach ((CurvePoint torque, CurvePoint power) in Curve("torque").Points.Zip(Curve("mechanical-power").Points))
            Near.Relative(torque.Y * torque.X / RpmPerRad, power.Y, 1e-9);
    }

    [Fact]
    public void The_highest_of_the_curves_are_the_figures_of_that_name()
    {
        foreach ((string curve, string figure) in ((string, string)[])[("torque", "peak-torque"), ("mechanical-power", "peak-mechanical-power"), ("efficiency", "best-efficiency")])
            Near.Relative(Disc.Figure(figure).Value!.Value, Curve(curve).Points.Max(p => p.Y), 0.03, figure);
        CurvePoint top = Curve("torque").Points.MaxBy(p => p.Y);
        Near.Relative(Disc.Figure("peak-torque").StandardUncertainty!.Value, (top.High - top.Low) / 2 / 2.06, 0.1, "uncertainty of the highest torque");
    }

    /// <summary>A band of one share everywhere would be the peak's: along the rise the fit is known better here and worse there.</summary>
    [Fact]
    public void The_band_of_the_torque_is_as_wide_at_each_speed_as_the_fit_leaves_it_there()
    {
        double[] shares = [.. Picture("torque-1").Curve.Select(c => (c.High - c.Low) / c.Y)];
        Assert.True(shares.Max() > 2 * shares.Min(), $"{shares.Min()} to {shares.Max()}");
        // Many like runs scatter as much as the band of one says.
        FigureInput[] runs = [.. Enumerable.Range(0, 24).Select(i => new BenchRecord(Disc.Parameters, seed: 100 + (ulong)i).Input())];
        CurvePoint[][] curves = [.. runs.Select(r => FitPictures.Of(r).Pictures.Single(p => p.Name == "torque-1").Curve.ToArray())];
        foreach (int place in (int[])[30, 60, 90])
        {
            double[] values = [.. curves.Select(c => c[place].Y)];
            double scatter = Summary.Deviation(values), told = curves.Average(c => (c[place].High - c[place].Low) / 2 / 1.96);
            Assert.InRange(scatter / told, 0.1, 1.6);
        }
    }

    [Fact]
    public void The_declared_inertia_s_uncertainty_widens_the_numbers_and_not_the_band_beside_the_data()
    {
        FigureInput unsure = Disc.Input() with { Article = Disc.Declared with { Uncertainty = new Dictionary<string, double> { ["inertia"] = 0.05 } } };
        CurvePoint told = DriveCurves.Of(unsure).Single(c => c.Name == "torque").Points[40], exact = Curve("torque").Points[40];
        Assert.True(told.High - told.Low > 0.19 * told.Y, $"{told}");
        Assert.True(exact.High - exact.Low < 0.1 * exact.Y, $"{exact}");
        CurvePoint drawn = FitPictures.Of(unsure).Pictures.Single(p => p.Name == "torque-1").Curve[40];
        Near.Relative(exact.High - exact.Low, drawn.High - drawn.Low, 1e-6);
    }

    [Fact]
    public void Efficiency_lies_below_one_and_its_readings_around_its_curve()
    {
        FitPicture picture = Picture("efficiency-1");
        Assert.All(picture.Curve, c => Assert.InRange(c.Y, 0, 100));
        Assert.InRange(Summary.Median([.. picture.Residuals.Select(Math.Abs)]), 0, 8);
    }

    /// <summary>Source: derived; 5 W and the cube of the throttle, held at three levels and at one of them twice.</summary>
    [Fact]
    public void Electrical_power_over_throttle_is_the_mean_of_each_level_held()
    {
        SplitMix chance = new(4);
        (double From, double Throttle)[] steps = [(1, 30), (4, 50), (7, 80), (10, 50), (13, 0)];
        double Throttle(double t) => t < 1 ? 0 : steps.Last(s => s.From <= t).Throttle;
        double Power(double throttle) => throttle == 0 ? 0 : 5 + 100 * Math.Pow(throttle / 100, 3);
        FigureInput input = new(
            new MadeTrace()
                .Channel("output.throttle", "%", Throttle).Channel("battery.voltage", "V", _ => 12)
                .Channel("battery.current", "A", t => Power(Throttle(t)) / 12 + 0.01 * chance.Bell()).Repeat(1, 1, 13, 19).Build(),
            Articles.Disc, FigureContext.UsualRestSpeed);
        DriveCurve curve = DriveCurves.Of(input).Single(c => c.Name == "electrical-power");
        Assert.Equal([30.0, 50, 80], curve.Points.Select(p => Math.Round(p.X, 6)));
        Assert.All(curve.Points, p => Assert.InRange(Power(p.X), p.Low - 0.02, p.High + 0.02));
        FitPicture picture = FitPictures.Of(input).Pictures.Single(p => p.Name == "electrical-power-1");
        Assert.Equal(3, picture.Curve.Count);
        Assert.InRange(Math.Abs(picture.Residuals.Average()), 0, 0.02);
        Assert.Equal("means of the levels held", picture.Line);
    }

    [Fact]
    public void A_single_level_is_a_point_and_no_picture()
    {
        Assert.Single(Curve("electrical-power").Points);
        Assert.Contains(Drawn.Reasons, r => r == "no picture of electrical power, repeat 1: the throttle was held at one level only");
    }

    [Fact]
    public void A_curve_that_the_data_do_not_give_says_why()
    {
        DriveCurve curve = DriveCurves.Of(Disc.Input() with { Article = null }).Single(c => c.Name == "torque");
        Assert.Empty(curve.Points);
        Assert.Equal("the article declares no inertia", curve.Note);
    }

    /// <summary>Source: derived; the same drag slows a rotor of half as much inertia again by two thirds.</summary>
    [Fact]
    public void The_run_down_with_a_ring_is_foretold_by_the_one_without_and_the_inertia_found()
    {
        const double inertia = 2e-4, ring = 1e-4;
        FitPicture picture = Rings(inertia, ring, ring).Single(p => p.Name == "added-inertia");
        Assert.InRange(Summary.Median([.. picture.Residuals.Select(Math.Abs)]), 0, 10);
        Assert.All(picture.Curve, c => Assert.True(c.Low < c.Y && c.Y < c.High, $"{c}"));
    }

    [Fact]
    public void Without_an_added_inertia_nothing_of_it_is_drawn_and_nothing_is_said_to_lack() => Assert.DoesNotContain(Drawn.Reasons, r => r.Contains("added", StringComparison.Ordinal));

    // Two repeats with the same drag, the second with a ring.
    private static IReadOnlyList<FitPicture> Rings(double inertia, double ring, double declared)
    {
        SplitMix chance = new(6);
        CoastDown alone = new(600, 0.004 / inertia, 2e-6 / inertia, 1e-8 / inertia), together = new(600, 0.004 / (inertia + ring), 2e-6 / (inertia + ring), 1e-8 / (inertia + ring));
        double Speed(double t) => t < 1 ? 0 : t < 3 ? 300 * (t - 1) : t < 35 ? alone.Speed(t - 3) : t < 37 ? 300 * (t - 35) : together.Speed(t - 37);
        FigureInput input = new(
            new MadeTrace().Channel("rotor.speed", "rpm", t => Speed(t) is > 0 and var s ? s * RpmPerRad + 3 * chance.Bell() : 0, to: 90).Repeat(1, 3, 3, 34).Repeat(35, 37, 37, 90).Build(),
            null, FigureContext.UsualRestSpeed);
        return FitPictures.Of(input, new Input("added inertia", declared, 0.01 * declared)).Pictures;
    }
}
