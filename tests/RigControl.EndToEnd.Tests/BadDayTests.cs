using System.Diagnostics;
using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>What a user gets when something goes wrong: a sentence, the right exit code, a stopped output, a record.</summary>
public sealed class BadDayTests : IDisposable
{
    private const string Options = "options: { ambient: 20 degC }";

    private readonly Tool _tool = new();

    [Fact]
    public void A_lid_that_opens_in_mid_run_ends_in_safe_stop_with_its_reason_and_reaction()
    {
        Said said = RunOn(_tool.SimulatedRig(Options, "options: { lid-forced-at: 8 s }"));
        Assert.Equal(4, said.ExitCode);
        Assert.Equal("safe-stop", said.Json.GetProperty("outcome").GetString());
        JsonElement trip = said.Json.GetProperty("trips").EnumerateArray().First(t => t.GetProperty("interlock").GetString() == "lid-closed");
        Assert.Equal(8, trip.GetProperty("at").GetDouble(), 0.006);
        Assert.InRange(trip.GetProperty("reaction").GetDouble(), 0, 0.005);
        Assert.Equal(0, _tool.Run("replay", "last").ExitCode);
    }

    [Fact]
    public void A_stop_that_is_pressed_in_mid_run_ends_in_safe_stop()
    {
        Said said = RunOn(_tool.SimulatedRig(Options, "options: { stop-pressed-at: 7 s }"));
        Assert.Equal(4, said.ExitCode);
        Assert.Contains("stop-clear", Trips(said));
    }

    [Trait("Requirement", "SAF-088")]
    [Fact]
    public void A_tachometer_that_falls_silent_in_mid_run_ends_it()
    {
        Said said = RunOn(_tool.SimulatedRig(Options, "options: { tachometer-silent-at: 12 s }"));
        Assert.Equal(4, said.ExitCode);
        Assert.Contains("tachometer-lost", Trips(said));
        JsonElement coast = said.Json.GetProperty("figures").EnumerateArray().Single(f => f.GetProperty("name").GetString() == "coast-down-time");
        Assert.StartsWith("nothing ran down: ", coast.GetProperty("note").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_motor_that_is_too_hot_stops_the_output()
    {
        Said said = RunOn(_tool.SimulatedRig(Options, "options: { added-heat: 400 W }"));
        Assert.Equal(4, said.ExitCode);
        Assert.Contains("motor-temperature", Trips(said));
    }

    [Fact]
    public void An_open_lid_keeps_the_rig_from_starting_and_every_reason_is_told()
    {
        Said said = RunOn(_tool.SimulatedRig(Options, "options: { lid-forced-at: 0.1 s, stop-pressed-at: 0.1 s }"));
        Assert.Equal(3, said.ExitCode);
        Assert.Equal("refused", said.Json.GetProperty("outcome").GetString());
        string[] refused = [.. said.Json.GetProperty("refusals").EnumerateArray().Select(r => r.GetProperty("interlock").GetString()!)];
        Assert.Contains("lid-closed", refused);
        Assert.Contains("stop-clear", refused);
        Assert.Contains("refused: ", said.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_mistake_in_a_file_is_told_with_its_place_and_nothing_runs()
    {
        string file = _tool.Write("wrong.yaml", "procedure: wrong\nrepaet: 3\nrequires: []\nsteps:\n  - arm: { within: 10 }\nfigures: [top-speed]\n");
        Said check = _tool.Run("check", file);
        Assert.Equal(2, check.ExitCode);
        Assert.Matches(@"wrong\.yaml:2:1: .*repaet.*repeat", check.Output);
        Assert.Matches(@"wrong\.yaml:5:\d+: .*10.*unit|wrong\.yaml:5:\d+: .*10.*; .*10 s", check.Output);
        Assert.Matches(@"wrong\.yaml:6:\d+: .*top-speed", check.Output);
        Said run = _tool.Run("run", file, "--pace", "max");
        Assert.Equal(2, run.ExitCode);
        Assert.Equal("", run.Output);
        Assert.Contains("wrong.yaml:2:1:", run.Errors, StringComparison.Ordinal);
        Assert.False(File.Exists(_tool.Logbook), "a run that never began left a logbook");
    }

    [Theory]
    [InlineData(2, "no such file", "run", "nowhere.yaml", "--pace", "max")]
    [InlineData(2, "--pace quickly is no pace", "run", "--pace", "quickly")]
    [InlineData(2, "--operater", "run", "--operater", "scripted")]
    [InlineData(2, "no run", "runs", "show", "zzzz")]
    [InlineData(3, "no operator", "run", "--operator", "terminal")]
    public void A_wrong_option_is_answered_with_a_sentence_and_its_exit_code(int exitCode, string sentence, params string[] arguments)
    {
        Said said = _tool.Run(arguments);
        Assert.Equal(exitCode, said.ExitCode);
        Assert.Contains(sentence, said.Errors, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void A_plugin_that_is_not_installed_is_named_with_those_that_are()
    {
        Said said = RunOn(_tool.SimulatedRig("plugin: simulated-rig", "plugin: simulated-ring"));
        Assert.Equal(2, said.ExitCode);
        Assert.Matches(@"changed\.rig\.yaml:\d+:\d+: .*simulated-ring.*simulated-rig", said.Errors);
    }

    [Fact]
    public void A_broken_plugin_is_named_and_the_others_serve()
    {
        string plugins = Path.Combine(_tool.Folder, "plugins");
        Tool.CopyFolder(Path.Combine(Path.GetDirectoryName(Tool.Program)!, "plugins"), plugins);
        Directory.CreateDirectory(Path.Combine(plugins, "Broken.Plugin"));
        File.WriteAllText(Path.Combine(plugins, "Broken.Plugin", "Broken.Plugin.dll"), "this is no assembly");
        Said said = _tool.Run("run", "--pace", "max", "--plugins", plugins);
        Assert.Equal(0, said.ExitCode);
        Assert.Contains("Broken.Plugin cannot be used", said.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_board_that_is_not_there_ends_before_anything_is_energised()
    {
        string rig = _tool.Write("board.rig.yaml", File.ReadAllText(Path.Combine(Tool.Root, "procedures", "board.rig.yaml")));
        Said said = _tool.Run("run", "procedures/enclosed-spin-up.yaml", "--rig", rig, "--article", "procedures/bench-motor.article.yaml");
        Assert.Equal(5, said.ExitCode);
        Assert.Matches("device .* does not open: ", said.Errors);
    }

    [Theory]
    [InlineData("INT")]
    [InlineData("TERM")]
    [InlineData("HUP")]
    public void A_signal_in_mid_run_is_a_safe_stop_with_a_whole_record(string signal)
    {
        using Process process = _tool.Begin("run", "--pace", "2", "--json");
        Tool.WaitFor(process.StandardError, "state    spin-up");
        Tool.Signal(process, signal);
        Tool.Signal(process, signal);
        Said said = Tool.End(process);
        Assert.Equal(4, said.ExitCode);
        Assert.Equal("safe-stop", said.Json.GetProperty("outcome").GetString());
        Assert.Contains("stop-command", Trips(said));
        Assert.Equal(0, _tool.Run("replay", "last").ExitCode);
    }

    [Fact]
    public void A_killed_run_is_listed_as_broken_off_and_what_was_recorded_replays()
    {
        using Process process = _tool.Begin("run", "--pace", "2");
        Tool.WaitFor(process.StandardError, "state    spin-up");
        process.Kill();
        process.WaitForExit();
        JsonElement run = _tool.Run("runs", "list", "--json").Json[0];
        Assert.Equal("broken-off", run.GetProperty("outcome").GetString());
        Said replay = _tool.Run("replay", "last", "--json");
        Assert.Equal(0, replay.ExitCode);
        Assert.True(replay.Json.GetProperty("scans").GetInt64() > 500, replay.Output);
    }

    [Fact]
    public void A_threshold_in_another_unit_than_its_channel_is_a_mistake_in_the_file_and_nothing_runs()
    {
        string file = _tool.Write("health.yaml", """
            procedure: health
            requires: []
            steps:
              - observe: { until: { channel: device.bench.health, below: 5 V }, timeout: 5 s }
            """);
        Said said = _tool.Run("run", file, "--pace", "max");
        Assert.Equal(2, said.ExitCode);
        Assert.Contains(":4:62: device.bench.health is in 1, but the condition is in V; write the value in 1", said.Errors, StringComparison.Ordinal);
        Assert.Empty(_tool.Run("runs", "list", "--json").Json.EnumerateArray());
    }

    [Theory]
    [InlineData(40, 5, "could not be read or written")]
    [InlineData(300, 4, "the record is incomplete")]
    public void A_disk_that_is_full_stops_the_rig_and_what_was_recorded_stays(int kibibytes, int exitCode, string sentence)
    {
        if (!OperatingSystem.IsLinux())
            Assert.Skip("a process is given a full disk by a limit of its shell, which only Linux has");
        Said said = _tool.RunWithDiskOf(kibibytes, "run", "--pace", "max");
        Assert.Equal(exitCode, said.ExitCode);
        Assert.Contains(sentence, said.Errors, StringComparison.Ordinal);
        Assert.DoesNotContain("repeat 2 of 3", said.Errors, StringComparison.Ordinal);
        JsonElement runs = _tool.Run("runs", "list", "--json").Json;
        Assert.Equal(exitCode == 4 ? ["broken-off"] : Array.Empty<string>(), runs.EnumerateArray().Select(r => r.GetProperty("outcome").GetString()!));
        Assert.True(exitCode == 5 || _tool.Run("replay", "last").ExitCode == 0);
    }

    [Fact]
    public void A_logbook_that_is_none_is_left_alone()
    {
        string file = _tool.Write("notes.txt", "shopping: bolts, bearings");
        Said said = _tool.Run("run", "--pace", "max", "--logbook", file);
        Assert.Equal(5, said.ExitCode);
        Assert.Contains("notes.txt", said.Errors, StringComparison.Ordinal);
        Assert.Equal("shopping: bolts, bearings", File.ReadAllText(file));
    }

    public void Dispose() => _tool.Dispose();

    private Said RunOn(string rig) => _tool.Run(
        "run", "procedures/enclosed-spin-up.yaml", "--rig", rig, "--article", "procedures/disc-180.article.yaml", "--json", "--pace", "max");

    private static IEnumerable<string> Trips(Said said) => said.Json.GetProperty("trips").EnumerateArray().Select(t => t.GetProperty("interlock").GetString()!);
}
