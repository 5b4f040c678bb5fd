using RigControl.Analysis.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Analysis.Tests.Figures;

public class SpeedFiguresTests
{
    private const double Top = 9000;
    private const double SpinUp = 0.5;
    private const double Slope = 800;

    [Fact]
    public void The_steady_speed_is_that_of_the_settled_hold() => Holds(Top, Run().Figure("steady-speed"), 1);

    [Fact]
    public void The_peak_speed_is_the_highest_reached() => Holds(Top, Run().Figure("peak-speed"), 1);

    [Fact]
    public void The_tip_speed_is_the_peak_speed_at_the_declared_radius() =>
        Holds(Top * Math.PI / 30 * 0.05, Run().Figure("tip-speed"), 0.01);

    [Fact]
    public void The_stored_energy_is_that_of_the_declared_inertia_at_the_peak_speed() =>
        Holds(0.5 * 2.2e-4 * Math.Pow(Top * Math.PI / 30, 2), Run().Figure("stored-energy"), 0.1);

    /// <summary>Source: derived; a first-order rise reaches 90 % after ln 10 time constants.</summary>
    [Fact]
    public void The_spin_up_time_lasts_from_the_demand_to_nine_tenths_of_the_steady_speed() =>
        Holds(SpinUp * Math.Log(10), Run().Figure("spin-up-time"), 0.01);

    [Fact]
    public void The_coast_down_time_lasts_from_the_stop_output_to_the_rest_speed() =>
        Holds((Top - 60) / Slope, Run().Figure("coast-down-time"), 0.1);

    [Fact]
    public void Every_repeat_has_its_own_figure()
    {
        IReadOnlyList<Figure> figures = Run().Repeat(1, 5, 10, 25).Figures("steady-speed");
        Assert.Equal([1, 2], figures.Select(f => f.Repeat));
    }

    [Theory]
    [InlineData("tip-speed")]
    [InlineData("stored-energy")]
    public void A_figure_that_needs_the_rotor_says_that_none_is_declared(string name)
    {
        Figure figure = Run().Figure(name, Articles.MotorAlone);
        Assert.Null(figure.Value);
        Assert.Contains("declares no", figure.Note, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("steady-speed")]
    [InlineData("peak-speed")]
    [InlineData("spin-up-time")]
    [InlineData("coast-down-time")]
    public void Without_a_speed_the_reason_names_the_channel(string name)
    {
        Figure figure = new MadeTrace().Channel("battery.voltage", "V", _ => 16).Repeat(1, 5, 10, 20).Figure(name);
        Assert.Null(figure.Value);
        Assert.Contains("rotor.speed", figure.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void A_run_that_never_held_a_level_has_no_steady_speed()
    {
        Figure figure = new MadeTrace().Channel("rotor.speed", "rpm", Speed).Repeat(1, double.NaN, double.NaN, 20).Figure("steady-speed");
        Assert.Null(figure.Value);
        Assert.NotNull(figure.Note);
    }

    [Fact]
    public void A_rotor_that_never_came_to_rest_has_no_coast_down_time()
    {
        Figure figure = new MadeTrace().Channel("rotor.speed", "rpm", Speed, to: 12).Repeat(1, 5, 10, 12).Figure("coast-down-time");
        Assert.Null(figure.Value);
        Assert.Contains("60 rpm", figure.Note, StringComparison.Ordinal);
    }

    // A tachometer that was lost before the stop output leaves a residue near zero: no time is made of it.
    [Fact]
    public void A_rotor_that_read_at_rest_before_the_stop_output_has_no_coast_down_time()
    {
        Figure figure = new MadeTrace().Channel("rotor.speed", "rpm", t => t < 9 ? Speed(t) : 50, to: 25, resolution: 1).Repeat(1, 5, 10, 25).Figure("coast-down-time");
        Assert.Null(figure.Value);
        Assert.Equal("nothing ran down: 50 rpm was read already at the stop output", figure.Note);
    }

    [Fact]
    public void A_trace_whose_output_never_rose_says_so() =>
        Assert.Contains("never rose", new MadeTrace().Channel("rotor.speed", "rpm", _ => 0).Figure("peak-speed").Note, StringComparison.Ordinal);

    private static MadeTrace Run() => new MadeTrace().Channel("rotor.speed", "rpm", Speed, to: 25, resolution: 1).Repeat(1, 5, 10, 25);

    // Rises from 1 s with a time constant, falls from 10 s along a straight line.
    private static double Speed(double t) => t switch
    {
        < 1 => 0,
        < 10 => Top * (1 - Math.Exp(-(t - 1) / SpinUp)),
        _ => Math.Max(0, Top - Slope * (t - 10)),
    };

    private static void Holds(double expected, Figure figure, double tolerance)
    {
        Assert.Null(figure.Note);
        Near.Absolute(expected, figure.Value!.Value, tolerance, figure.Name);
        Assert.True(figure.StandardUncertainty > 0, $"{figure.Name} claims to be exact");
        Assert.InRange(expected, figure.Interval95!.Value.Low, figure.Interval95.Value.High);
    }
}
