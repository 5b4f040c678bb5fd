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
        Assert.True(all[1].GetProperty("tareUncertainty").GetDouble() > 0);
        // The curve keeps the date of its points, and the tare has its own.
        Assert.Equal(all[0].GetProperty("at").GetDateTimeOffset(), all[1].GetProperty("at").GetDateTimeOffset());
        Assert.True(all[1].GetProperty("tareAt").GetDateTimeOffset() > all[1].GetProperty("at").GetDateTimeOffset());
    }

    [Fact]
    public void A_tared_channel_reads_nothing_where_it_was_tared()
    {
        string trace = _tool.Write("trace.csv", Trace);
        _tool.Write("calibrations.json", Old(tare: 10));
        // The highest reading is the tared one.
        JsonElement figure = Figure(_tool.Run("analyze", trace, "--calibrations", Store, "--json").Json, "peak-current");
        Assert.Equal(0, figure.GetProperty("value").GetDouble(), 9);
        Assert.Contains("battery.current calibrated on 2026-05-04, tared", figure.GetProperty("note").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Points_that_state_nothing_count_alike_and_a_single_one_says_that_nobody_knows_how_good_it_is()
    {
        Assert.Contains("1.0000198 × reading", Calibrate("--kind", "gain", "--point", "1=1.2", "--point", "10=10", "--point", "100=100").Output, StringComparison.Ordinal);
        Said single = Calibrate("--kind", "gain", "--point", "10=11");
        Assert.Contains("reference 11, corrected 11, left over 0", single.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("±", single.Output, StringComparison.Ordinal);
        Assert.Contains("how well it is known is unknown: state --point-uncertainty", single.Output, StringComparison.Ordinal);
        JsonElement figure = Charge(_tool.Run("analyze", _tool.Write("trace.csv", Trace), "--calibrations", Store, "--json").Json);
        Assert.Contains(Budget(figure), b => b.Name == "battery.current: calibration of unknown uncertainty" && b.Size is null);
    }

    [Theory]
    [InlineData(false, "battery.current: no calibration")]
    [InlineData(true, "battery.current: calibration expired on 2026-05-05")]
    public void A_run_names_a_missing_and_an_expired_calibration_in_text_document_report_and_table(bool expired, string line)
    {
        if (expired)
            _tool.Write("logbook.calibrations.json", Old().Replace("\"rig\": \"\"", "\"rig\": \"simulated-box\"", StringComparison.Ordinal));
        JsonElement run = _tool.Run("run", "--json", "--pace", "max", "--seed", "3").Json;
        string name = run.GetProperty("run").GetString()!;
        Assert.Contains(Budget(Charge(run)), b => b.Name == line && b.Size is null);
        // The uncertainty that an expired one had stays.
        Assert.Equal(expired, Budget(Charge(run)).Any(b => b.Name == "calibration of battery.current" && b.Size > 0));
        string shown = _tool.Run("runs", "show", name).Output, page = _tool.Run("report", name, "--output", "-").Output, table = _tool.Run("runs", "figures").Output;
        Assert.All(new[] { shown, page }, text => Assert.Contains($"{line}, of unknown size in peak-current, charge-used", text, StringComparison.Ordinal));
        Assert.Contains(line, table, StringComparison.Ordinal);
        Assert.DoesNotContain($"{line} 0 %", table, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("c.png")]
    [InlineData("c.svg")]
    public void A_calibration_is_drawn_where_it_is_asked_for(string file)
    {
        string path = Path.Combine(_tool.Folder, file);
        Said said = Calibrate("--point", "1=1.1", "--point", "5=5.3", "--point", "10=10.55", "--point-uncertainty", "0.01", "--plot", path);
        Assert.Contains($"{path} written", said.Output, StringComparison.Ordinal);
        Assert.True(new FileInfo(path).Length > 5000);
    }

    [Fact]
    public void A_tare_has_no_points_to_draw_and_is_not_taken_on_the_way()
    {
        Said said = Calibrate("--tare", "--plot", Path.Combine(_tool.Folder, "c.png"));
        Assert.Equal(2, said.ExitCode);
        Assert.Contains("a tare has none", said.Errors, StringComparison.Ordinal);
        Assert.False(File.Exists(Store));
    }

    [Theory]
    [InlineData("--point", "1=1.1", "too few")]
    [InlineData("--point", "one=1", "READING=REFERENCE")]
    [InlineData("--valid-days", "0", "--valid-days")]
    [InlineData("--plot", "picture.jpg", ".png")]
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

    // As files were kept before a tare had a date and points had degrees of freedom.
    private static string Old(double tare = 0) => $$"""
        [
          {
            "channel": "battery.current", "unit": "A", "kind": "line", "coefficients": [0.05, 1.05, 0], "covariance": [0.0001, 0, 0, 0, 0.0001, 0, 0, 0, 0],
            "common": 0, "lowest": 0, "highest": 30, "at": "2026-05-04T00:00:00+00:00", "validUntil": "2026-05-05T00:00:00+00:00",
            "reference": "a shunt", "conditions": "", "rig": "", "tare": {{tare}}
          }
        ]
        """;

    private static IEnumerable<(string? Name, double? Size)> Budget(JsonElement figure) => figure.GetProperty("budget").EnumerateArray()
        .Select(b => (b.GetProperty("name").GetString(), b.GetProperty("standardUncertainty") is { ValueKind: JsonValueKind.Number } n ? n.GetDouble() : (double?)null));

    private static JsonElement Charge(JsonElement document) => Figure(document, "charge-used");

    private static JsonElement Figure(JsonElement document, string name) => document.GetProperty("figures").EnumerateArray().First(f => f.GetProperty("name").GetString() == name);

    private static double Uncertainty(JsonElement document) => Charge(document).GetProperty("standardUncertainty").GetDouble();
}
