using RigControl.Analysis.Tests.Support;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Motors;

/// <summary>A motor that is known from one slow ramp, where no level was ever held.</summary>
public class RampTests
{
    private const double Kt = 0.00955, Ohm = 0.1, Inertia = 6e-5, Quadratic = 1.6e-7, PackOhm = 0.03, Step = 0.001;

    /// <summary>Source: duty × voltage = resistance × current + Kt × speed; Kt = 60 / (2 π Kv), both derived; integrated step by step.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(0.025)]
    [InlineData(0.05)]
    public void A_slow_ramp_gives_kv_and_resistance_however_much_of_its_time_the_controller_takes(double lag)
    {
        MadeTrace trace = Ramp(until: 15, lag);
        Holds(60 / (2 * Math.PI * Kt), trace.Figure("motor-kv"));
        Holds(Ohm, trace.Figure("winding-resistance"));
    }

    [Fact]
    public void Where_readings_are_good_the_lag_of_the_controller_is_what_the_budget_names()
    {
        Figure constant = Ramp(until: 15, lag: 0.025).Figure("motor-kv");
        Assert.Equal("lag of the controller", constant.Budget.MaxBy(b => b.Share)!.Name);
        Assert.InRange(constant.StandardUncertainty!.Value / constant.Value!.Value, 0.0005, 0.01);
    }

    [Fact]
    public void A_ramp_on_which_a_controller_may_lag_by_more_than_a_percent_says_nothing() =>
        Assert.Null(Ramp(until: 1.5, lag: 0.025).Figure("motor-kv").Value);

    [Fact]
    public void The_figures_of_a_motor_say_how_they_hang_together()
    {
        MadeTrace trace = Ramp(until: 15, lag: 0);
        Assert.Contains("correlation of speed constant and resistance", trace.Figure("motor-kv").Note, StringComparison.Ordinal);
        Assert.Equal(trace.Figure("motor-kv").Note, trace.Figure("winding-resistance").Note);
    }

    private static void Holds(double truth, Figure figure)
    {
        (double low, double high) = Assert.NotNull(figure.Interval95);
        Assert.InRange(truth, low, high);
    }

    private static MadeTrace Ramp(double until, double lag)
    {
        int count = (int)Math.Round(until / Step) + 1;
        double[] times = [.. Enumerable.Range(0, count).Select(i => i * Step)], volts = new double[count], amperes = new double[count], rpm = new double[count];
        SplitMix chance = new(41);
        double speed = 0;
        for (int i = 0; i < count; i++)
        {
            double duty = Demand(times[i] - lag, until) / 100;
            // Pack and winding meet where the pack's sag and the drive's demand agree.
            double winding = Math.Max(0, (12 * duty - Kt * speed) / (Ohm + PackOhm * duty * duty)), pack = winding * duty;
            (volts[i], amperes[i], rpm[i]) = (12 - PackOhm * pack + 0.002 * chance.Bell(), pack + 0.01 * chance.Bell(), speed * 30 / Math.PI);
            speed += Step * (Kt * winding - Quadratic * speed * speed) / Inertia;
        }

        double[] ten = [.. times.Where((_, i) => i % 10 == 0)];
        double[] Thinned(double[] all) => [.. all.Where((_, i) => i % 10 == 0)];
        return new MadeTrace()
            .Channel(ChannelNames.OutputThrottle, "%", t => Demand(t, until), to: until, step: 0.01)
            .Samples(ChannelNames.BatteryVoltage, "V", ten, Thinned(volts))
            .Samples(ChannelNames.BatteryCurrent, "A", ten, Thinned(amperes))
            .Samples(ChannelNames.RotorSpeed, "rpm", ten, Thinned(rpm))
            .Repeat(0, double.NaN, until, until);
    }

    private static double Demand(double t, double until) => Math.Clamp(90 * t / until, 0, 90);
}
