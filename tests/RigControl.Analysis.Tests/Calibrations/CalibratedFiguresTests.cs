using RigControl.Analysis.Calibrations;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Analysis.Tests.Calibrations;

public class CalibratedFiguresTests
{
    private static readonly DateTimeOffset Day = new(2026, 5, 4, 0, 0, 0, TimeSpan.Zero);
    private static readonly FigureInput Input = new(
        new MadeTrace().Channel("battery.current", "A", t => 20, to: 90).Channel("battery.voltage", "V", _ => 16, to: 90).Repeat(0, 10, 80, 90).Build(), null, 60);

    /// <summary>Source: derived; a shunt that reads 5 % low takes 5 % off the charge, and 1 % of doubt about it adds 1 %.</summary>
    [Fact]
    public void A_corrected_channel_moves_the_figure_and_its_doubt_widens_it()
    {
        Figure plain = Figure(new Dictionary<string, Calibration>(), "charge-used"), corrected = Figure(Gain(1.05, 0.0105), "charge-used");
        Near.Relative(1.05 * plain.Value!.Value, corrected.Value!.Value, 1e-9);
        Near.Relative(0.01 * corrected.Value.Value, corrected.StandardUncertainty!.Value, 0.02);
        Near.Relative(1.96 * corrected.StandardUncertainty.Value, corrected.Interval95!.Value.High - corrected.Value.Value, 0.01);
        Assert.Contains("battery.current calibrated on 2026-05-04", corrected.Note, StringComparison.Ordinal);
    }

    /// <summary>Source: derived; shares are of the variance and make up the whole.</summary>
    [Fact]
    public void The_calibration_is_a_line_of_the_budget_beside_those_that_the_figure_had()
    {
        Figure plain = Figure(new Dictionary<string, Calibration>(), "charge-used"), corrected = Figure(Gain(1.05, 0.0105), "charge-used");
        Assert.Equal("calibration of battery.current", corrected.Budget[0].Name);
        Near.Relative(0.01 * corrected.Value!.Value, corrected.Budget[0].Uncertainty, 1e-6);
        Near.Relative(1, corrected.Budget.Sum(b => b.Share), 1e-9);
        Near.Relative(corrected.StandardUncertainty!.Value, Math.Sqrt(corrected.Budget.Sum(b => b.Uncertainty * b.Uncertainty)), 1e-9);
        Assert.Equal(Math.Max(1, plain.Budget.Count) + 1, corrected.Budget.Count);
    }

    [Fact]
    public void A_figure_that_does_not_look_at_the_channel_stays_as_it_is() =>
        Assert.Equal(Figure(new Dictionary<string, Calibration>(), "minimum-voltage"), Figure(Gain(1.05, 0.01), "minimum-voltage"));

    [Fact]
    public void An_expired_calibration_is_told_beside_the_figure() =>
        Assert.Contains("expired on 2026-05-01", Figure(Gain(1.05, 0.01, Day.AddDays(-3)), "charge-used").Note, StringComparison.Ordinal);

    [Fact]
    public void Readings_beyond_the_points_are_told() => Assert.Contains("beyond its points", Figure(Gain(1.05, 0.01, highest: 10), "charge-used").Note, StringComparison.Ordinal);

    [Fact]
    public void Channels_without_a_calibration_are_named_in_a_sentence()
    {
        Assert.Contains("battery.voltage", CalibratedFigures.Missing(Input.Trace, Gain(1, 0.01)), StringComparison.Ordinal);
        Assert.DoesNotContain("battery.current", CalibratedFigures.Missing(Input.Trace, Gain(1, 0.01))!, StringComparison.Ordinal);
    }

    private static Dictionary<string, Calibration> Gain(double gain, double uncertainty, DateTimeOffset? until = null, double highest = 30) => new()
    {
        ["battery.current"] = new Calibration
        {
            Channel = "battery.current", Unit = "A", Kind = CalibrationKind.Gain, Coefficients = [0, gain, 0], Covariance = [0, 0, 0, 0, uncertainty * uncertainty, 0, 0, 0, 0],
            Common = 0, Lowest = 0, Highest = highest, At = Day, ValidUntil = until,
        },
    };

    private static Figure Figure(IReadOnlyDictionary<string, Calibration> calibrations, string name) => Assert.Single(CalibratedFigures.Compute([name], Input, calibrations, Day));
}
