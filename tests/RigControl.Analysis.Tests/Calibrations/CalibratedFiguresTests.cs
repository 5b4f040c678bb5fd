using RigControl.Analysis.Calibrations;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Uncertainty;
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
        // The line of the calibration takes the place of the one that said that there was none.
        Assert.Equal(plain.Budget.Count, corrected.Budget.Count);
        Assert.Contains(plain.Budget, b => b.Name == "battery.current: no calibration");
    }

    [Fact]
    public void A_figure_that_does_not_look_at_the_channel_stays_as_it_is() =>
        Assert.Equal(Figure(new Dictionary<string, Calibration>(), "minimum-voltage"), Figure(Gain(1.05, 0.01), "minimum-voltage"));

    [Fact]
    public void An_expired_calibration_is_told_beside_the_figure() =>
        Assert.Contains("expired on 2026-05-01", Figure(Gain(1.05, 0.01, Day.AddDays(-3)), "charge-used").Note, StringComparison.Ordinal);

    [Fact]
    public void An_expired_calibration_is_a_line_without_a_number_beside_its_own_which_stays()
    {
        Contribution[] budget = [.. Figure(Gain(1.05, 0.0105, Day.AddDays(-3)), "charge-used").Budget];
        Assert.Equal(UnsizedPart.Of("battery.current: calibration expired on 2026-05-01"), budget[^1]);
        Near.Relative(Figure(Gain(1.05, 0.0105), "charge-used").Budget[0].Uncertainty, budget.Single(b => b.Name == "calibration of battery.current").Uncertainty, 1e-12);
        Near.Relative(1, budget.Sum(b => b.Share), 1e-9);
    }

    [Theory]
    [InlineData("charge-used", "battery.current: no calibration")]
    [InlineData("minimum-voltage", "battery.voltage: no calibration")]
    [InlineData("energy-used", "battery.voltage: no calibration|battery.current: no calibration")]
    public void A_sensor_taken_at_its_word_is_a_line_without_a_number_and_changes_none(string name, string lines)
    {
        Figure plain = Assert.Single(FigureCatalog.Compute([name], Input)), told = Figure(new Dictionary<string, Calibration>(), name);
        Assert.Equal(lines.Split('|'), told.Budget.Where(UnsizedPart.Is).Select(b => b.Name));
        Assert.Equal((plain.Value, plain.StandardUncertainty, plain.Interval95, plain.Note), (told.Value, told.StandardUncertainty, told.Interval95, told.Note));
    }

    [Fact]
    public void A_temperature_is_named_in_the_figures_of_its_own_channel_with_the_current_that_heats_it()
    {
        FigureInput input = new(
            new MadeTrace().Channel("motor.temperature", "degC", t => 20 + t, to: 90).Channel("battery.temperature", "degC", t => 20 + 0.1 * t, to: 90).Channel("battery.current", "A", _ => 20, to: 90).Repeat(0, 10, 80, 90).Build(), null, 60);
        Figure motor = CalibratedFigures.Compute(["temperature-rise"], input, new Dictionary<string, Calibration>(), Day).Single(f => FigureCatalog.ChannelOf(f) == "motor.temperature");
        Assert.Equal(["motor.temperature: no calibration"], motor.Budget.Where(UnsizedPart.Is).Select(b => b.Name));
        Assert.Contains("battery.current", FigureCatalog.LooksAt(motor with { Name = "continuous-current" }));
    }

    [Fact]
    public void A_speed_which_a_crystal_dates_asks_for_no_calibration()
    {
        FigureInput input = new(new MadeTrace().Channel("rotor.speed", "rpm", t => 1000 + 10 * t, to: 90).Repeat(0, 10, 80, 90).Build(), null, 60);
        Assert.DoesNotContain(Assert.Single(CalibratedFigures.Compute(["peak-speed"], input, new Dictionary<string, Calibration>(), Day)).Budget, UnsizedPart.Is);
    }

    [Fact]
    public void A_calibration_that_tells_nothing_of_itself_corrects_the_figure_and_says_so()
    {
        Dictionary<string, Calibration> point = new() { ["battery.current"] = CalibrationFit.Of("battery.current", "A", CalibrationKind.Gain, [new(10, 0, 11, 0)], 0, Day).Calibration };
        Figure plain = Figure(new Dictionary<string, Calibration>(), "charge-used"), corrected = Figure(point, "charge-used");
        Near.Relative(1.1 * plain.Value!.Value, corrected.Value!.Value, 1e-9);
        Assert.Contains("battery.current calibrated on 2026-05-04", corrected.Note, StringComparison.Ordinal);
        Assert.Equal("battery.current: calibration of unknown uncertainty", corrected.Budget[^1].Name);
        Assert.Contains("battery.current: calibration of unknown uncertainty", CalibratedFigures.Doubts(Input.Trace, point, Day));
    }

    [Fact]
    public void A_tare_alone_is_no_calibration_and_is_told_with_its_date()
    {
        Calibration tare = Gain(1, 0)["battery.current"] with { Tare = 0.4, TareUncertainty = 0.01, TareAt = Day.AddDays(2) };
        Figure tared = Figure(new Dictionary<string, Calibration> { ["battery.current"] = tare }, "charge-used");
        Assert.Contains("battery.current tared on 2026-05-06", tared.Note, StringComparison.Ordinal);
        Assert.Equal("battery.current: tared, no calibration", tared.Budget[^1].Name);
        // 90 s of a reading that is 0.01 A off.
        Near.Relative(0.01 * 90 / 3600, tared.Budget.Single(b => b.Name == "calibration of battery.current").Uncertainty, 1e-3);
    }

    /// <summary>Source: derived; Student's table (from memory): t(0.975, 2) = 4.303.</summary>
    [Fact]
    public void A_calibration_of_few_points_reaches_as_far_as_its_degrees_of_freedom_say()
    {
        Calibration few = Gain(1.05, 0.0105)["battery.current"] with { Freedom = 2 };
        Figure figure = Figure(new Dictionary<string, Calibration> { ["battery.current"] = few }, "charge-used");
        Near.Relative(4.303 * figure.StandardUncertainty!.Value, figure.Interval95!.Value.High - figure.Value!.Value, 0.01);
    }

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
