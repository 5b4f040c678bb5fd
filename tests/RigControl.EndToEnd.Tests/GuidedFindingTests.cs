using System.Diagnostics;
using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>What a controller and a tachometer really do is found by a run with the rotor off, and written into the article.</summary>
[Collection(RealFirmware.Name)]
public sealed class GuidedFindingTests : IDisposable
{
    // Power, a beep to be marked, a small level, and what somebody saw.
    private const string Short = """
        procedure: short-first-power
        requires: [lid-closed, stop-clear, failsafe-confirmed]
        steps:
          - arm: { within: 20 s }
          - spin-up: { throttle: 20 %, ramp: 1 s, until: { channel: output.throttle, above: 19 % }, timeout: 5 s }
          - hold: { for: 1.5 s }
          - coast-down: { timeout: 20 s }
          - trial: { name: turns-the-right-way, question: "did it turn the right way round" }
          - ask: { name: after-the-stop, question: "at the stop", choices: [ran-down, stopped-at-once, not-seen] }
          - ask: { name: second-speed, question: "second instrument", resolution: 1 rpm, lowest: 0 rpm, highest: 9999 rpm }
        """;

    private readonly Tool _tool = new();

    [Fact]
    public void The_true_end_of_the_range_is_found_and_written_into_the_article()
    {
        string rig = _tool.SimulatedRig("ambient: 20 degC", "ambient: 20 degC, range-begins-at: 1085 us, range-ends-at: 1850 us");
        rig = _tool.Write("fast.rig.yaml", File.ReadAllText(rig).Replace("limit: 10000 rpm", "limit: 14000 rpm", StringComparison.Ordinal));
        string article = _tool.Write("mine.article.yaml", File.ReadAllText(Path.Combine(Tool.Root, "procedures", "bench-motor.article.yaml")));
        string procedure = _tool.Write("range.yaml", File.ReadAllText(Path.Combine(Tool.Root, "procedures", "controller-range.yaml"))
            .Replace("throttle: 60 %", "throttle: 100 %", StringComparison.Ordinal).Replace("above: 59 %", "above: 99 %", StringComparison.Ordinal));
        string[] run = ["run", procedure, "--rig", rig, "--article", article, "--pace", "max"];
        Assert.Equal(0, _tool.Run(run).ExitCode);
        JsonElement end = Find("maximum");
        Assert.Equal("change", end.GetProperty("verdict").GetString());
        // The bench was told 1850 us; 1 % of the range of 850 us is what the finding promises.
        Assert.Equal(1850, double.Parse(end.GetProperty("write").GetString()!.Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture), 8.5);
        Assert.Contains("began to turn at 108", Find("stop").GetProperty("says").GetString(), StringComparison.Ordinal);
        string before = File.ReadAllText(article);
        Said refused = _tool.Run("runs", "suggest", "last", "--into", article);
        Assert.Equal((2, before), (refused.ExitCode, File.ReadAllText(article)));
        Assert.Contains("was simulated", refused.Errors, StringComparison.Ordinal);
        Assert.Equal(0, _tool.Run("runs", "suggest", "last", "--into", article, "--even-simulated").ExitCode);
        Assert.Matches(@"\n# 20\d\d-\d\d-\d\d, run \w+: maximum is now \d+ us\n$", File.ReadAllText(article));
        Assert.NotEqual(before, File.ReadAllText(article));
        Assert.Equal(0, _tool.Run("check", article).ExitCode);
        Assert.Equal(0, _tool.Run(run).ExitCode);
        // Nothing is tried beyond the declared end, so that nothing more can be said of it.
        Assert.Equal(("unknown", null), (Find("maximum").GetProperty("verdict").GetString(), Find("maximum").GetProperty("write").GetString()));
    }

    [Fact]
    public void A_marker_at_the_last_beep_and_answers_at_the_terminal_tell_the_rest()
    {
        string rig = _tool.SimulatedRig("ambient: 20 degC", "ambient: 20 degC, marks: 2");
        string article = _tool.Write("mine.article.yaml", File.ReadAllText(Path.Combine(Tool.Root, "procedures", "bench-motor.article.yaml"))
            .Replace("arming-time: 2 s", "arming-time: 0.2 s", StringComparison.Ordinal));
        // A virtual clock at the pace of the wall's: on a busy machine it gets slower instead of late.
        using Process terminal = _tool.Type("run", _tool.Write("short.yaml", Short), "--operator", "terminal", "--pace", "1", "--rig", rig, "--article", article);
        Send(terminal, "confirmed\n");
        List<string> shown = [];
        while (terminal.StandardOutput.ReadLine() is { } line)
        {
            shown.Add(line);
            Send(terminal, line switch
            {
                _ when line.Contains("state    safe-stop", StringComparison.Ordinal) || line.Contains("reset refused", StringComparison.Ordinal) => "r",
                _ when line.Contains("act      reset", StringComparison.Ordinal) => "a",
                _ when line.Contains("state    arming", StringComparison.Ordinal) => "m",
                _ when line.Contains("act      mark", StringComparison.Ordinal) || line.Contains("start refused", StringComparison.Ordinal) => "s",
                _ when line.Contains("the right way round", StringComparison.Ordinal) => "2",
                _ when line.Contains("at the stop", StringComparison.Ordinal) => "2",
                // The bench turns at 20 % of about 12.6 V and 1000 rpm/V; its two marks read twice that.
                _ when line.Contains("second instrument", StringComparison.Ordinal) => "2500\n",
                _ => "",
            });
        }

        terminal.WaitForExit();
        Assert.True(terminal.ExitCode == 0, string.Join('\n', shown));
        Assert.Equal("change", Find("arming-time").GetProperty("verdict").GetString());
        Assert.Equal("yes", Find("brakes-at-stop").GetProperty("write").GetString());
        Assert.Equal("wrong", Find("sense of rotation").GetProperty("verdict").GetString());
        Assert.Equal("2", Find("pulses-per-revolution").GetProperty("write").GetString());
        Said into = _tool.Run("runs", "suggest", "last", "--into", article, "--even-simulated");
        Assert.Contains("count them by hand", into.Output, StringComparison.Ordinal);
        Assert.Contains("brakes-at-stop: yes", File.ReadAllText(article), StringComparison.Ordinal);
        Assert.DoesNotContain("pulses-per-revolution", File.ReadAllText(article), StringComparison.Ordinal);
        Said again = _tool.Run("runs", "suggest", "last", "--into", article, "--even-simulated");
        Assert.Equal(2, again.ExitCode);
        Assert.Contains("declares another controller than the run was made with", again.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_run_with_a_rotor_suggests_nothing_and_says_which_runs_do()
    {
        Assert.Equal(0, _tool.Run("run", "--pace", "max").ExitCode);
        Said said = _tool.Run("runs", "suggest", "last");
        Assert.Equal(2, said.ExitCode);
        Assert.Contains("first-power and controller-range", said.Errors, StringComparison.Ordinal);
    }

    public void Dispose() => _tool.Dispose();

    private JsonElement Find(string key) => _tool.Run("runs", "suggest", "last", "--json").Json.GetProperty("findings").EnumerateArray()
        .Single(f => f.GetProperty("key").GetString() == key);

    private static void Send(Process terminal, string keys)
    {
        terminal.StandardInput.Write(keys);
        terminal.StandardInput.Flush();
    }
}
