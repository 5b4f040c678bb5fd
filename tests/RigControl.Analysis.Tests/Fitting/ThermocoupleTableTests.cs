using RigControl.Analysis.Calibrations;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Tests.Support;

namespace RigControl.Analysis.Tests.Fitting;

/// <summary>
/// Fits and calibrations of thermocouples K, J and T against their standard. Source: NIST Monograph 175 (ITS-90), coefficients read, check
/// points from memory; thermo/thermocouple_checkpoints.csv. The program converts no thermocouple by itself: an amplifier on the rig takes it
/// for a straight line, and a calibration has to put that right.
/// </summary>
public class ThermocoupleTableTests
{
    [Fact]
    public void The_polynomials_give_every_printed_check_point_to_its_last_digit()
    {
        (string Type, double Celsius, double Printed)[] points =
            [.. Reference.Lines("thermo/thermocouple_checkpoints.csv").Skip(1).Select(c => (c[0], Reference.Number(c[1]), Reference.Number(c[2])))];
        Assert.Equal(31, points.Length);
        Assert.All(points, p => Near.Absolute(p.Printed, Thermocouple.Millivolts(p.Type, p.Celsius), 0.00051, $"{p.Type} at {p.Celsius} degC"));
    }

    /// <summary>A ninth power of 20 mV stands beside a constant: what a fitter loses on the way shows in the temperatures.</summary>
    [Theory]
    [InlineData("K_0_500")]
    [InlineData("K_500_1372")]
    [InlineData("J_0_760")]
    public void A_fit_of_as_many_powers_finds_the_way_back_as_closely_as_the_published_one(string range)
    {
        (double from, double to, double[] published) = Thermocouple.Back(range);
        double[] celsius = [.. Enumerable.Range(0, (int)(to - from) + 1).Select(i => from + i)];
        double[] mv = [.. celsius.Select(t => Thermocouple.Millivolts(range[..1], t))];
        Fit fit = LinearFit.Solve([.. published.Select((_, k) => mv.Select(e => Math.Pow(e, k)).ToArray())], celsius);
        double root = Math.Sqrt(celsius.Select((t, i) => Math.Pow(Thermocouple.Polynomial(published, mv[i]) - t, 2)).Average());
        Assert.InRange(Math.Sqrt(fit.ResidualSumOfSquares / celsius.Length), 0.2 * root, 1.001 * root);
        for (int i = 0; i < celsius.Length; i++)
            Near.Absolute(celsius[i] - Thermocouple.Polynomial(fit.Parameters, mv[i]), fit.Residuals[i], 1e-6, $"residual at {celsius[i]} degC");
    }

    /// <summary>Points at ice and every 20 degC, held against a thermometer; readings of an amplifier that knows only the slope at 25 degC.</summary>
    [Theory]
    [InlineData("K", 0.35)]
    [InlineData("J", 0.15)]
    [InlineData("T", 0.15)]
    public void A_calibration_by_a_curve_puts_a_straight_amplifier_right_up_to_boiling_water(string type, double within) =>
        Assert.InRange(Worst(Calibrated(type, 100), type, 100), 0, within);

    [Fact]
    public void Up_to_500_degrees_one_curve_is_not_enough_and_its_own_points_show_it()
    {
        CalibrationFit far = Calibrated("K", 500);
        Assert.InRange(Worst(far, "K", 500), 0.8, 5);
        Assert.True(far.Residuals.Max(Math.Abs) > 0.5 * Worst(far, "K", 500));
    }

    private static CalibrationFit Calibrated(string type, double highest)
    {
        CalibrationPoint[] points = [.. Enumerable.Range(0, 6).Select(i => i * highest / 5).Select(t => new CalibrationPoint(Straight(type, t), 0.05, t, 0.05))];
        return CalibrationFit.Of("motor.temperature", "degC", CalibrationKind.Curve, points, 0, default);
    }

    private static double Worst(CalibrationFit fit, string type, double highest) =>
        Enumerable.Range(0, 101).Select(i => i * highest / 100).Max(t => Math.Abs(fit.Calibration.Correct(Straight(type, t)).Value - t));

    private static double Straight(string type, double celsius) => 25 * Thermocouple.Millivolts(type, celsius) / Thermocouple.Millivolts(type, 25);
}
