using System.Globalization;
using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>Figures from what was measured by hand. Formulas: handbook mechanics, sampling theorem, IEC 60034-1 (from memory); values derived.</summary>
public sealed class ReckonTests : IDisposable
{
    private readonly Tool _tool = new();

    [Fact]
    public void A_disc_with_a_hole_has_its_inertia_with_uncertainty_and_budget()
    {
        JsonElement figure = Figures("inertia", "--add", "disc, 500 g +- 1, 80 mm +- 0.1", "--less", "disc, 8 g, 4 mm, at 60 mm").Single();
        Near(0.0016 - 0.008 * (0.5 * 0.004 * 0.004 + 0.06 * 0.06), figure, 1e-9);
        double uncertainty = 0.0016 * Math.Sqrt(Math.Pow(1.0 / 500, 2) + Math.Pow(2 * 0.1 / 80, 2));
        Assert.Equal(uncertainty, figure.GetProperty("standardUncertainty").GetDouble(), 1e-3 * uncertainty);
        Assert.Equal(["disc 1 radius", "disc 1 mass"], figure.GetProperty("budget").EnumerateArray().Select(b => b.GetProperty("name").GetString()));
    }

    [Theory]
    [InlineData("--two-threads", 16)]
    [InlineData("--three-threads", 4)]
    public void A_rotor_on_threads_has_the_inertia_of_its_swings_less_the_platform(string threads, double factor)
    {
        double swings = 20 * Math.Sqrt(factor * Math.PI * Math.PI * 0.5 * 0.001 / (0.4 * 9.80665)) / 0.2;
        JsonElement figure = Figures("pendulum", threads, "200 mm +- 0.5", "--mass", "400 g +- 1", "--length", "0.5 m", "--swings", "20", "--watch", "0.2",
            "--timing", Text(swings - 0.05), "--timing", Text(swings + 0.05), "--platform", "0.0001 kg.m2 +- 0.000001").Single();
        Near(0.0009, figure, 1e-6);
        Assert.Equal(["together", "platform"], figure.GetProperty("budget").EnumerateArray().Select(b => b.GetProperty("name").GetString()));
    }

    [Fact]
    public void Turns_over_frames_are_a_speed_with_the_uncertainty_of_two_frames()
    {
        JsonElement figure = Figures("frames", "--turns", "20", "--frames", "80", "--rate", "240").Single();
        Near(3600, figure, 1e-6);
        Assert.Equal(3600 / (80 * Math.Sqrt(6)), figure.GetProperty("standardUncertainty").GetDouble(), 0.01);
        Assert.Contains("below 14400 rpm", figure.GetProperty("method").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_speed_is_readable_to_half_where_the_direction_is_unknown()
    {
        string[] clip = ["reckon", "frames", "--turns", "30", "--frames", "60", "--rate", "240"];
        Assert.Equal(0, _tool.Run(clip).ExitCode);
        Said said = _tool.Run([.. clip, "--direction-unknown"]);
        Assert.Equal((2, ""), (said.ExitCode, said.Output));
        Assert.Contains("no speed: 7200 rpm cannot be told from slower ones", said.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_winding_tells_its_temperature_and_its_rise_by_its_resistance()
    {
        JsonElement[] figures = Figures("winding", "--cold", "100 mOhm +- 0.1", "--cold-at", "20 degC +- 0.5", "--hot", "0.12 Ohm +- 0.0001", "--ambient", "24 degC +- 0.5");
        Near(70.9, figures[0], 1e-6);
        Near(46.9, figures[1], 1e-6);
        Assert.Equal(["degC", "K"], figures.Select(f => f.GetProperty("unit").GetString()));
        Assert.Contains(figures[1].GetProperty("budget").EnumerateArray(), b => b.GetProperty("name").GetString() == "ambient temperature");
    }

    [Fact]
    public void A_person_reads_value_interval_and_budget()
    {
        string output = _tool.Run("reckon", "inertia", "--add", "disc, 500 g +- 1, 80 mm +- 0.1").Output;
        Assert.Contains("inertia: 0.0016000 ± 0.0000051 kg.m2", output, StringComparison.Ordinal);
        Assert.Contains("disc 1 radius 4.0e-6 kg.m2 (61 %)", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_any_uncertainty_stated_none_is_claimed()
    {
        JsonElement figure = Figures("inertia", "--add", "rod, 100 g, 200 mm").Single();
        Assert.Equal(JsonValueKind.Null, figure.GetProperty("standardUncertainty").ValueKind);
        Assert.Contains("how well it is known is unknown", figure.GetProperty("note").GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("is no part", "inertia", "--add", "cube, 1 kg, 1 m")]
    [InlineData("more is taken away than there is", "inertia", "--add", "disc, 1 kg, 10 mm", "--less", "disc, 2 kg, 10 mm")]
    [InlineData("either --two-threads or --three-threads", "pendulum", "--mass", "1 kg", "--length", "1 m", "--swings", "9", "--watch", "0.1", "--timing", "9")]
    [InlineData("--amplitude is 0 to 34 deg", "pendulum", "--two-threads", "0.2 m", "--mass", "1 kg", "--length", "1 m", "--swings", "9", "--watch", "0.1", "--timing", "9", "--amplitude", "50 deg")]
    [InlineData("--timing, --swings and --watch are above 0", "pendulum", "--two-threads", "0.2 m", "--mass", "1 kg", "--length", "1 m", "--swings", "0", "--watch", "0.1", "--timing", "9")]
    [InlineData("the platform alone has more", "pendulum", "--two-threads", "0.2 m", "--mass", "1 kg", "--length", "1 m", "--swings", "9", "--watch", "0.1", "--timing", "9", "--platform", "9 kg.m2")]
    [InlineData("--frames is 2 or more", "frames", "--turns", "1", "--frames", "1", "--rate", "240")]
    [InlineData("cold resistance '0 Ohm': it is above 0", "winding", "--cold", "0 Ohm", "--cold-at", "20 degC", "--hot", "1 Ohm")]
    public void What_cannot_be_reckoned_ends_with_a_sentence_and_exit_code_2(string why, params string[] arguments)
    {
        Said said = _tool.Run(["reckon", .. arguments]);
        Assert.Equal((2, ""), (said.ExitCode, said.Output));
        Assert.Contains(why, said.Errors, StringComparison.Ordinal);
    }

    public void Dispose() => _tool.Dispose();

    private JsonElement[] Figures(params string[] arguments) => [.. _tool.Run(["reckon", .. arguments, "--json"]).Json.GetProperty("figures").EnumerateArray()];

    private static void Near(double expected, JsonElement figure, double within) => Assert.Equal(expected, figure.GetProperty("value").GetDouble(), within);

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
