using System.Text.Json.Nodes;
using RigControl.Analysis.Tests.Support;
using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Figures;

public class PowerFiguresTests
{
    /// <summary>Source: closed form, derived; motor/charge_energy.json: 20 A for 90 s, and 0 to 40 A over 90 s, are 0.5 Ah each.</summary>
    [Theory]
    [InlineData(20, 20)]
    [InlineData(0, 40)]
    public void Charge_is_the_integral_of_the_current(double first, double last)
    {
        double expected = Reference()["Ah"]!.GetValue<double>();
        Figure charge = Trace(t => first + (last - first) * t / 90).Figure("charge-used");
        Near.Relative(expected, charge.Value!.Value, 1e-9);
        Assert.Equal("Ah", charge.Unit);
    }

    /// <summary>Source: closed form, derived; motor/charge_energy.json.</summary>
    [Fact]
    public void Energy_is_the_integral_of_voltage_times_current()
    {
        double expected = Reference()["Wh"]!.GetValue<double>();
        Figure energy = Trace(t => 40 * t / 90).Figure("energy-used");
        Near.Relative(expected, energy.Value!.Value, 2e-4);
        Assert.Equal("Wh", energy.Unit);
    }

    [Fact]
    public void A_peak_of_a_single_sample_is_not_averaged_away()
    {
        Figure peak = Trace(t => Math.Abs(t - 45) < 0.005 ? 97 : 20).Figure("peak-current");
        Assert.Equal(97, peak.Value);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(12)]
    public void A_peak_of_few_samples_stands_among_samples_that_scatter(int samples)
    {
        SplitMix chance = new(31);
        Figure peak = Trace(t => (t > 44.995 && t < 44.995 + 0.01 * samples ? 97 : 20) + 0.1 * chance.Bell()).Figure("peak-current");
        Near.Absolute(97, peak.Value!.Value, 0.5);
        Assert.InRange(97, peak.Interval95!.Value.Low, peak.Interval95.Value.High);
    }

    /// <summary>Source: derived; the highest of 9000 normal values lies about 3.8 times their scatter above what they scatter around.</summary>
    [Fact]
    public void A_level_that_scatters_peaks_at_the_level_and_not_at_the_highest_sample()
    {
        SplitMix chance = new(32);
        Figure peak = Trace(_ => 20 + 0.1 * chance.Bell()).Figure("peak-current");
        Near.Absolute(20, peak.Value!.Value, 0.05);
        Assert.InRange(20, peak.Interval95!.Value.Low, peak.Interval95.Value.High);
    }

    [Fact]
    public void The_minimum_voltage_is_the_lowest_sample() =>
        Assert.Equal(16.8 - 0.05 * 40, Trace(t => t is > 30 and < 30.5 ? 40 : 10).Figure("minimum-voltage").Value!.Value, 9);

    [Fact]
    public void The_peak_voltage_is_the_highest_sample_of_the_whole_run_and_not_only_of_the_time_under_load() =>
        Assert.Equal(16.8, Trace(t => t > 1 ? 40 : 0).Figure("peak-voltage").Value!.Value, 9);

    [Fact]
    public void Without_a_voltage_there_is_no_peak_voltage_and_the_reason_names_the_channel()
    {
        Figure figure = new MadeTrace().Channel("battery.current", "A", _ => 16).Repeat(1, 5, 10, 20).Figure("peak-voltage");
        Assert.Null(figure.Value);
        Assert.Contains("battery.voltage", figure.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void The_peak_power_is_the_highest_product_of_one_moment() =>
        Assert.Equal(40 * (16.8 - 0.05 * 40), Trace(t => t is > 30 and < 31 ? 40 : 10).Figure("peak-power").Value!.Value, 6);

    [Fact]
    public void The_mean_current_is_that_of_the_time_with_output_on() =>
        Near.Relative(20, Trace(t => t is > 10 and < 80 ? 20 : 0).Repeat(20, 30, 70, 90).Figures("mean-current")[^1].Value!.Value, 1e-9);

    [Theory]
    [InlineData("peak-current")]
    [InlineData("mean-current")]
    [InlineData("charge-used")]
    [InlineData("energy-used")]
    public void Without_a_current_the_reason_names_the_channel(string name)
    {
        Figure figure = new MadeTrace().Channel("battery.voltage", "V", _ => 16).Repeat(1, 5, 10, 20).Figure(name);
        Assert.Null(figure.Value);
        Assert.Contains("battery.current", figure.Note, StringComparison.Ordinal);
    }

    private static JsonNode Reference() =>
        JsonNode.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "reference", "motor", "charge_energy.json")))!;

    // The pack sags by 50 mOhm.
    private static MadeTrace Trace(Func<double, double> current) => new MadeTrace()
        .Channel("battery.current", "A", current, to: 90)
        .Channel("battery.voltage", "V", t => 16.8 - 0.05 * current(t), to: 90)
        .Repeat(0, 10, 80, 90);
}
