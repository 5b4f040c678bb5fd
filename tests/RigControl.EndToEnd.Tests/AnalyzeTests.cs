using System.Globalization;
using System.Text;
using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>Figures from a trace recorded elsewhere.</summary>
public sealed class AnalyzeTests : IDisposable
{
    private readonly Tool _tool = new();

    [Fact]
    public void A_trace_gives_figures_segments_and_notes()
    {
        string trace = _tool.Write("trace.csv", Trace("rpm", 1));
        JsonElement document = _tool.Run("analyze", trace, "--article", Path.Combine("procedures", "disc-180.article.yaml"), "--json").Json;
        Near(9000, Value(document, "steady-speed"), 5);
        Near(0.5 * Math.Log(10), Value(document, "spin-up-time"), 0.02);
        Near(8.94, Value(document, "coast-down-time"), 0.05);
        Near(0.00018225 * 1000 * Math.PI / 30, Value(document, "drag-constant"), 1e-4);
        JsonElement segment = Assert.Single(document.GetProperty("segments").EnumerateArray());
        Near(1, segment.GetProperty("riseAt").GetDouble(), 0.01);
        Assert.Contains(document.GetProperty("notes").EnumerateArray(), n => n.GetString()!.Contains("repeats is unknown", StringComparison.Ordinal));
        JsonElement none = Figure(document, "charge-used");
        Assert.Equal(JsonValueKind.Null, none.GetProperty("value").ValueKind);
        Assert.Contains("battery.current", none.GetProperty("note").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Another_unit_of_the_same_trace_gives_the_same_figures()
    {
        JsonElement rpm = _tool.Run("analyze", _tool.Write("rpm.csv", Trace("rpm", 1)), "--json").Json;
        JsonElement rad = _tool.Run("analyze", _tool.Write("rad.csv", Trace("rad/s", Math.PI / 30)), "--json").Json;
        foreach (string name in new[] { "steady-speed", "spin-up-time", "coast-down-time", "peak-speed" })
            Near(Value(rpm, name), Value(rad, name), 1e-6 * Value(rpm, name) + Figure(rpm, name).GetProperty("standardUncertainty").GetDouble());
    }

    /// <summary>Source: derived; a first-order rise with a time constant of 0.5 s, and a fall by 1000 rpm in every second.</summary>
    [Fact]
    public void What_is_asked_at_a_stated_time_or_speed_is_answered_and_without_it_the_reason_says_so()
    {
        string trace = _tool.Write("trace.csv", Trace("rpm", 1)), article = Path.Combine("procedures", "disc-180.article.yaml");
        JsonElement document = _tool.Run("analyze", trace, "--article", article, "--after", "3", "--to-speed", "4500", "--settled-within", "5", "--json").Json;
        Near(6000, Value(document, "speed-after"), 10);
        Near(0.5 * 0.00018225 * Math.Pow(6000 * Math.PI / 30, 2), Value(document, "energy-after"), 0.2);
        Near(0.5 * Math.Log(2), Value(document, "time-to-speed"), 0.02);
        Near(0.5 * Math.Log(20), Value(document, "settling-time"), 0.03);
        JsonElement none = _tool.Run("analyze", trace, "--json").Json;
        Assert.Contains("no speed is stated", Figure(none, "time-to-speed").GetProperty("note").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_fits_of_a_trace_are_drawn_beside_its_figures_and_its_curves_stand_in_the_document()
    {
        string trace = _tool.Write("trace.csv", Trace("rpm", 1)), article = Path.Combine("procedures", "disc-180.article.yaml"), stem = Path.Combine(Path.GetDirectoryName(trace)!, "seen.svg");
        Said said = _tool.Run("analyze", trace, "--article", article, "--fits", stem, "--json");
        JsonElement torque = said.Json.GetProperty("curves").EnumerateArray().Single(c => c.GetProperty("name").GetString() == "torque");
        Assert.Equal(("N.m", "speed", "rpm"), (torque.GetProperty("unit").GetString(), torque.GetProperty("across").GetString(), torque.GetProperty("acrossUnit").GetString()));
        JsonElement first = torque.GetProperty("points")[0];
        // Source: derived; what a first-order rise and a fall of 1000 rpm a second take.
        double speed = first.GetProperty("at").GetDouble();
        Near(0.00018225 * ((9000 - speed) / 0.5 + 1000) * Math.PI / 30, first.GetProperty("value").GetDouble(), 0.01);
        Assert.Contains("spin-up-1.svg written", said.Errors, StringComparison.Ordinal);
        Assert.StartsWith("<svg", File.ReadAllText(Path.Combine(Path.GetDirectoryName(trace)!, "seen-torque-1.svg")), StringComparison.Ordinal);
        Assert.Equal(2, _tool.Run("analyze", trace, "--fits", "seen.jpg").ExitCode);
    }

    [Theory]
    [InlineData("--after -1", "--after -1 is out of range; write a value from 0 s to 86400 s")]
    [InlineData("--match 180", "--match and --duty go together; write --duty and a value from 1 % to 100 %")]
    [InlineData("--duty 120 --match 180", "--duty 120 is out of range")]
    [InlineData("--ambient NaN", "is out of range; write a value from -40 degC to 100 degC")]
    public void What_cannot_be_asked_ends_in_a_sentence_and_exit_code_2(string options, string sentence)
    {
        Said said = _tool.Run(["analyze", _tool.Write("trace.csv", Trace("rpm", 1)), .. options.Split(' ')]);
        Assert.Equal(2, said.ExitCode);
        Assert.Contains(sentence, said.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_run_answers_what_its_procedure_asks_at_and_so_does_its_rehearsal_and_check_says_what_is_not_stated()
    {
        string plain = File.ReadAllText(Path.Combine(Tool.Root, "procedures", "enclosed-spin-up.yaml"));
        plain = plain[..plain.IndexOf("figures:", StringComparison.Ordinal)].Replace("repeat: 3", "repeat: 1", StringComparison.Ordinal)
            + "figures: [speed-after, energy-after, time-to-speed, settling-time, match-share, voltage-sag, state-of-charge]\n";
        string asks = _tool.Write("asks.yaml", plain + "figures-at: { after: 1 s, to-speed: 3000 rpm, match: 180 s, duty: 50 % }\n"), mute = _tool.Write("mute.yaml", plain);
        JsonElement run = _tool.Run("run", asks, "--seed", "5", "--json", "--pace", "max").Json;
        foreach (JsonElement figure in run.GetProperty("figures").EnumerateArray())
        {
            Assert.True(figure.GetProperty("value").ValueKind == JsonValueKind.Number, figure.ToString());
            Assert.True(figure.GetProperty("standardUncertainty").GetDouble() > 0, figure.ToString());
        }

        Assert.Contains("a match of 180 s", Figure(run, "match-share").GetProperty("note").GetString(), StringComparison.Ordinal);
        JsonElement rehearsed = _tool.Run("rehearse", asks, "--samples", "20", "--json").Json;
        Assert.All(["speed-after", "time-to-speed", "match-share"], name => Assert.Contains(rehearsed.GetProperty("figures").EnumerateArray(), f => f.GetProperty("name").GetString() == name && f.GetProperty("median").ValueKind == JsonValueKind.Number));
        string said = _tool.Run("check", mute).Output;
        Assert.Contains("no speed-after: the procedure does not state what it is asked at; write figures-at: { after: 2 s }", said, StringComparison.Ordinal);
        Assert.Contains("no match-share: the procedure does not state what it is asked at; write figures-at: { match: 180 s, duty: 50 % }", said, StringComparison.Ordinal);
        Assert.DoesNotContain("does not state", _tool.Run("check", asks).Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_trace_that_lies_ends_with_its_row_and_column_and_exit_code_2()
    {
        Said said = _tool.Run("analyze", _tool.Write("bad.csv", "time [s],rotor.speed [rpm]\n0,1\n1,x\n"));
        Assert.Equal(2, said.ExitCode);
        Assert.Empty(said.Output);
        Assert.Contains("bad.csv:3:2:", said.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_trace_that_is_not_there_ends_with_exit_code_2() => Assert.Equal(2, _tool.Run("analyze", "nowhere.csv").ExitCode);

    [Fact]
    public void A_run_and_its_exported_twin_give_the_same_figures()
    {
        JsonElement run = _tool.Run("run", "--seed", "5", "--json", "--pace", "max").Json;
        string twin = _tool.Write("twin.csv", _tool.Run("runs", "export", "last").Output);
        JsonElement again = _tool.Run("analyze", twin, "--article", Path.Combine("procedures", "disc-180.article.yaml"), "--json").Json;
        Assert.NotEmpty(run.GetProperty("figures").EnumerateArray());
        foreach (JsonElement figure in run.GetProperty("figures").EnumerateArray())
        {
            (string name, int repeat) = (figure.GetProperty("name").GetString()!, figure.GetProperty("repeat").GetInt32());
            JsonElement twinned = again.GetProperty("figures").EnumerateArray().Single(f => f.GetProperty("name").GetString() == name && f.GetProperty("repeat").GetInt32() == repeat);
            // The trace knows no declared resolution, and not when a hold was entered: within their intervals the two are the same.
            Near(figure.GetProperty("value").GetDouble(), twinned.GetProperty("value").GetDouble(), Half(figure) + Half(twinned));
        }
    }

    private static double Half(JsonElement figure) => 0.5 * (figure.GetProperty("interval95")[1].GetDouble() - figure.GetProperty("interval95")[0].GetDouble());

    public void Dispose() => _tool.Dispose();

    // A first-order rise from 1 s, a hold, and a fall by 1000 rpm/s from 10 s.
    private static string Trace(string unit, double factor)
    {
        StringBuilder text = new($"time [s],rotor.speed [{unit}],output.throttle [%]\r\n");
        for (int i = 0; i <= 4000; i++)
        {
            double t = i * 0.005;
            double speed = t < 1 ? 0 : t < 10 ? 9000 * (1 - Math.Exp(-(t - 1) / 0.5)) : Math.Max(0, 9000 - 1000 * (t - 10));
            text.Append(CultureInfo.InvariantCulture, $"{t:0.000},{speed * factor:R},{(t is >= 1 and < 10 ? 60 : 0)}\r\n");
        }

        return text.ToString();
    }

    private static JsonElement Figure(JsonElement document, string name) =>
        document.GetProperty("figures").EnumerateArray().First(f => f.GetProperty("name").GetString() == name);

    private static double Value(JsonElement document, string name) => Figure(document, name).GetProperty("value").GetDouble();

    private static void Near(double expected, double actual, double tolerance) => Assert.InRange(actual, expected - tolerance, expected + tolerance);
}
