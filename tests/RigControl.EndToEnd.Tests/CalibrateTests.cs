using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>A channel held against a reference, and what that does to the figures.</summary>
public sealed class CalibrateTests : IDisposable
{
    private const string Trace = "time [s],output.throttle [%],battery.current [A],battery.voltage [V]\n0,0,0,16\n1,50,10,16\n2,50,10,16\n3,50,10,16\n4,0,0,16\n5,0,0,16\n";

    private readonly Tool _tool = new();

    [Fact]
    public void Points_are_fitted_shown_with_what_is_left_over_and_kept()
    {
        Said said = Calibrate("--point", "1=1.1", "--point", "5=5.3", "--point", "10=10.55", "--point-uncertainty", "0.01", "--reference", "bench supply", "--valid-days", "365");
        Assert.Equal(0, said.ExitCode);
        Assert.Contains("true = 0.05 + 1.05 × reading A", said.Output, StringComparison.Ordinal);
        Assert.Contains("left over", said.Output, StringComparison.Ordinal);
        JsonElement kept = JsonDocument.Parse(File.ReadAllText(Store)).RootElement[0];
        Assert.Equal("bench supply", kept.GetProperty("reference").GetString());
        Assert.Equal("battery.current", kept.GetProperty("channel").GetString());
    }

    [Fact]
    public void A_corrected_trace_has_corrected_figures_and_says_what_is_not_calibrated()
    {
        Calibrate("--kind", "gain", "--point", "10=11", "--point-uncertainty", "0.01", "--reference-uncertainty", "0.11");
        string trace = _tool.Write("trace.csv", Trace);
        JsonElement plain = _tool.Run("analyze", trace, "--json").Json, corrected = _tool.Run("analyze", trace, "--calibrations", Store, "--json").Json;
        Assert.Equal(1.1 * Charge(plain).GetProperty("value").GetDouble(), Charge(corrected).GetProperty("value").GetDouble(), 9);
        Assert.Contains("battery.current calibrated on", Charge(corrected).GetProperty("note").GetString(), StringComparison.Ordinal);
        Assert.True(Uncertainty(corrected) > Uncertainty(plain));
        Assert.Contains(corrected.GetProperty("notes").EnumerateArray(), n => n.GetString() is { } s && s.Contains("not calibrated", StringComparison.Ordinal) && s.Contains("battery.voltage", StringComparison.Ordinal) && !s.Contains("battery.current", StringComparison.Ordinal));
    }

    [Fact]
    public void A_run_is_corrected_by_the_calibrations_beside_its_logbook()
    {
        double plain = Charge(_tool.Run("run", "--json", "--pace", "max", "--seed", "3").Json).GetProperty("value").GetDouble();
        Assert.Equal(0, _tool.Run("calibrate", "battery.current", "--unit", "A", "--kind", "gain", "--point", "10=11", "--point-uncertainty", "0.01").ExitCode);
        JsonElement run = _tool.Run("run", "--json", "--pace", "max", "--seed", "3").Json, corrected = Charge(run);
        JsonElement calibration = Assert.Single(run.GetProperty("provenance").GetProperty("calibrations").EnumerateArray());
        Assert.Equal("battery.current", calibration.GetProperty("channel").GetString());
        Assert.Equal("0 A + 1.1 x + 0 x²", calibration.GetProperty("correction").GetString());
        Assert.Contains(corrected.GetProperty("budget").EnumerateArray(), b => b.GetProperty("name").GetString() == "calibration of battery.current");
        Assert.Equal(1.1 * plain, corrected.GetProperty("value").GetDouble(), 7);
        Assert.Contains("calibrated on", corrected.GetProperty("note").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_reference_is_asked_for_and_the_rig_is_read_with_everything_off()
    {
        Said said = Typed("20\n\n", "calibrate", "ambient.temperature", "--kind", "offset", "--calibrations", Store, "--json");
        Assert.Equal(0, said.ExitCode);
        JsonElement point = said.Json.GetProperty("points")[0];
        Assert.Equal(20, point.GetProperty("reference").GetDouble());
        Assert.InRange(point.GetProperty("reading").GetDouble(), 15, 25);
    }

    [Fact]
    public void A_tare_is_kept_as_an_act_of_its_own()
    {
        Calibrate("--kind", "gain", "--point", "10=11", "--point-uncertainty", "0.01");
        Assert.Equal(0, _tool.Run("calibrate", "battery.current", "--tare", "--calibrations", Store).ExitCode);
        JsonElement all = JsonDocument.Parse(File.ReadAllText(Store)).RootElement;
        Assert.Equal(2, all.GetArrayLength());
        Assert.Equal(1.1, all[1].GetProperty("coefficients")[1].GetDouble(), 9);
        Assert.NotEqual(0, all[1].GetProperty("tare").GetDouble());
    }

    [Theory]
    [InlineData("--point", "1=1.1", "too few")]
    [InlineData("--point", "one=1", "READING=REFERENCE")]
    [InlineData("--valid-days", "0", "--valid-days")]
    public void Bad_input_ends_in_a_sentence_and_exit_code_2(string option, string value, string sentence)
    {
        Said said = _tool.Run("calibrate", "battery.current", "--unit", "A", "--calibrations", Store, "--point", "2=2", option, value);
        Assert.Equal(2, said.ExitCode);
        Assert.Contains(sentence, said.Errors, StringComparison.Ordinal);
        Assert.False(File.Exists(Store));
    }

    public void Dispose() => _tool.Dispose();

    private string Store => Path.Combine(_tool.Folder, "calibrations.json");

    private Said Calibrate(params string[] options) => _tool.Run(["calibrate", "battery.current", "--unit", "A", "--calibrations", Store, .. options]);

    private Said Typed(string text, params string[] arguments)
    {
        using System.Diagnostics.Process process = _tool.Begin(arguments);
        process.StandardInput.Write(text);
        return Tool.End(process);
    }

    private static JsonElement Charge(JsonElement document) => document.GetProperty("figures").EnumerateArray().First(f => f.GetProperty("name").GetString() == "charge-used");

    private static double Uncertainty(JsonElement document) => Charge(document).GetProperty("standardUncertainty").GetDouble();
}
