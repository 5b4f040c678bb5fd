using RigControl.Analysis.Figures;
using RigControl.Analysis.Motors;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Speed;

public class SpinUpFitTests
{
    private static readonly CoastDown Drag = new(0, 40, 0.01, 2e-5);

    [Fact]
    public void A_rise_under_a_limit_gives_back_limit_time_constant_and_final_speed()
    {
        SpinUpFit fit = Fit(new SpinUp(800, 0.2, 1500, Drag), noise: 10, seed: 71);
        Near.Relative(800, fit.Final.Value, 0.01, "final speed");
        Near.Relative(0.2, fit.TimeConstant.Value, 0.05, "time constant");
        Assert.NotNull(fit.Limit);
        Near.Relative(1500, fit.Limit.Value, 0.05, "limit");
        // Before drag the limit is the highest drive there is.
        Near.Relative(1500, fit.Highest().Drive.Value, 0.05);
    }

    /// <summary>Source: derived; the drive of a first-order rise from rest is the free speed over the time constant, its power peaks at half the free speed.</summary>
    [Fact]
    public void A_rise_without_a_limit_shows_none_and_peaks_in_power_at_half_the_free_speed()
    {
        SpinUp truth = new(800, 0.3, double.PositiveInfinity, default);
        SpinUpFit fit = Fit(truth, noise: 10, seed: 72);
        Near.Relative(0.3, fit.TimeConstant.Value, 0.02);
        Near.Relative(800 / 0.3, fit.Highest().Drive.Value, 0.04);
        Near.Relative(400 * 400 / 0.3, fit.Highest().Power.Value, 0.03);
    }

    [Fact]
    public void A_curve_of_torque_falls_in_a_straight_line_with_the_speed()
    {
        SpeedSignal signal = Signal(new SpinUp(800, 0.3, double.PositiveInfinity, default), noise: 2, seed: 73);
        foreach (TorquePoint point in TorqueCurve.Of(signal.Between(0.1, 0.8), 2e-4, default))
            Near.Absolute(2e-4 * (800 - point.Speed) / 0.3, point.Torque.Value, 4 * point.Torque.Uncertainty + 0.01, $"at {point.Speed:0} rad/s");
    }

    [Fact]
    public void A_few_readings_give_a_reason() =>
        Assert.Throws<NoFigureException>(() => SpinUpFit.Of(SpeedSignal.Of(new Series("rpm", 0, [0, 1, 2], [1, 2, 3])), 0, 2, null, default));

    private static SpinUpFit Fit(SpinUp truth, double noise, ulong seed) => SpinUpFit.Of(Signal(truth, noise, seed), 0, 4, null, truth.Drag);

    private static SpeedSignal Signal(SpinUp truth, double noise, ulong seed)
    {
        SplitMix chance = new(seed);
        List<double> times = [], values = [];
        double speed = 0;
        for (int i = 1; i <= 4000; i++)
        {
            speed = truth.Advance(speed, 1, 0.001);
            if (i % 5 != 0)
                continue;
            times.Add(i * 0.001);
            values.Add(Math.Max(0.1, speed * 30 / Math.PI + noise * chance.Bell()));
        }

        return SpeedSignal.Of(new Series("rpm", 0, [.. times], [.. values]));
    }
}
