using System.Diagnostics;
using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>What the operating system does to the program: it is suspended, gets no memory, cannot write, loses its terminal.</summary>
public sealed class SystemTests : IDisposable
{
    private readonly Tool _tool = new();

    public SystemTests() => Assert.SkipUnless(OperatingSystem.IsLinux(), "signals, limits and devices of Linux");

    [Fact]
    public void A_program_suspended_on_the_real_clock_stops_the_rig_when_it_goes_on()
    {
        using Process process = _tool.Begin("run", "--operator", "scripted", "--json");
        Tool.WaitFor(process.StandardError, "state    idle");
        Suspend(process);
        Said said = Tool.End(process);
        // Not energised yet, it may be refused instead of stopped; run on over the gap it may not.
        Assert.True(said.ExitCode is 3 or 4, $"exit {said.ExitCode}: {said.Errors}");
        Assert.NotEqual("completed", said.Json.GetProperty("outcome").GetString());
        Assert.Equal(0, _tool.Run("replay", "last").ExitCode);
    }

    [Fact]
    public void A_program_suspended_on_a_virtual_clock_goes_on_as_if_nothing_had_been()
    {
        using Process process = _tool.Begin("run", "--pace", "4", "--json");
        Tool.WaitFor(process.StandardError, "state    spin-up");
        Suspend(process);
        Said said = Tool.End(process);
        Assert.Equal(0, said.ExitCode);
        Assert.Equal("completed", said.Json.GetProperty("outcome").GetString());
    }

    [Fact]
    public void A_device_that_uses_up_the_memory_is_named_and_the_rig_stopped()
    {
        string rig = _tool.SimulatedRig("devices:", "devices:\n  - { id: trouble, plugin: misbehaving-device, options: { mischief: leaks-memory, from: 8 s, says-it-never-blocks: yes } }");
        Said said = _tool.RunWith(
            new() { ["DOTNET_GCHeapHardLimit"] = "0x12C00000" }, "run", "procedures/enclosed-spin-up.yaml", "--rig", rig, "--article", "procedures/disc-180.article.yaml",
            "--plugins", _tool.PluginsWith("RigControl.Misbehaving"), "--pace", "max");
        Assert.Equal(4, said.ExitCode);
        Assert.Contains("device trouble failed: the memory that this program may use is used up", said.Errors, StringComparison.Ordinal);
        Assert.Equal("safe-stop", _tool.Run("runs", "list", "--json").Json[0].GetProperty("outcome").GetString());
        Assert.Equal(0, _tool.Run("replay", "last", "--plugins", Path.Combine(_tool.Folder, "plugins")).ExitCode);
    }

    [Theory]
    [InlineData(5, "/proc/logbook.sqlite cannot be opened", "run", "--pace", "max", "--logbook", "/proc/logbook.sqlite")]
    [InlineData(2, "/proc/trace.csv cannot be written", "runs", "export", "last", "--output", "/proc/trace.csv")]
    [InlineData(5, "make room, or name another place", "runs", "export", "last", "--output", "/dev/full")]
    public void A_place_that_takes_nothing_is_named(int exitCode, string sentence, params string[] arguments)
    {
        Assert.Equal(0, _tool.Run("run", "--pace", "max").ExitCode);
        Said said = _tool.Run(arguments);
        Assert.Equal(exitCode, said.ExitCode);
        Assert.Contains(sentence, said.Errors, StringComparison.Ordinal);
        Assert.DoesNotContain("fault in the program", said.Errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2>/dev/full", 0)]
    [InlineData(">/dev/full", 0)]
    [InlineData("2>&1 | head -n 1", 0)]
    public void A_run_that_nobody_can_read_is_run_to_its_end_and_recorded(string redirection, int exitCode)
    {
        Said said = _tool.RunInShell($"run --pace max {redirection}");
        Assert.Equal(exitCode, said.ExitCode);
        Assert.Equal("completed", _tool.Run("runs", "list", "--json").Json[0].GetProperty("outcome").GetString());
        Assert.Equal(0, _tool.Run("replay", "last").ExitCode);
    }

    [Fact]
    public void A_list_that_cannot_be_written_says_so_with_its_exit_code()
    {
        Said said = _tool.RunInShell("plugins >/dev/full");
        Assert.Equal(5, said.ExitCode);
        Assert.Contains("the output cannot be written", said.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_terminal_that_is_closed_under_a_run_is_a_safe_stop_with_a_record()
    {
        using Process terminal = _tool.Type("run");
        terminal.StandardInput.Write("confirmed\n");
        terminal.StandardInput.Flush();
        Tool.WaitFor(terminal.StandardOutput, "safe-stop");
        terminal.Kill();
        terminal.WaitForExit();
        JsonElement run = AwaitEnd();
        Assert.Equal("safe-stop", run.GetProperty("outcome").GetString());
        Assert.Equal(0, _tool.Run("replay", "last").ExitCode);
    }

    [Fact]
    public void A_rig_with_two_devices_for_one_channel_is_told_which_and_nothing_runs()
    {
        string rig = _tool.SimulatedRig("devices:", "devices:\n  - { id: other, plugin: simulated-rig }");
        Said said = _tool.Run("run", "procedures/enclosed-spin-up.yaml", "--rig", rig, "--article", "procedures/disc-180.article.yaml", "--pace", "max");
        Assert.Equal(2, said.ExitCode);
        Assert.Contains("device other supplies the channel rotor.speed, which another device already supplies; map it to another name under channels:", said.Errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("gearbox.temperature, above: 30 degC", "waits for the channel gearbox.temperature, which no device supplies")]
    [InlineData("rotor.speed, above: 900000 rpm", "is never above 900000")]
    [InlineData("rotor.speed, below: -5 rpm", "rotor.speed is never below -5 rpm")]
    public void A_condition_that_can_never_come_true_is_refused_before_anything_turns(string condition, string sentence)
    {
        string file = _tool.Write("never.yaml", $$"""
            procedure: never
            requires: []
            steps:
              - arm: { within: 10 s }
              - spin-up: { throttle: 20 %, ramp: 1 s, until: { channel: {{condition}} }, timeout: 8 s }
              - coast-down: { until: { channel: rotor.speed, below: 60 rpm }, timeout: 60 s }
            """);
        Said said = _tool.Run("run", file, "--pace", "max");
        Assert.Equal(2, said.ExitCode);
        Assert.Contains(sentence, said.Errors, StringComparison.Ordinal);
        Assert.Empty(_tool.Run("runs", "list", "--json").Json.EnumerateArray());
    }

    public void Dispose() => _tool.Dispose();

    // For as long as another run of the program takes: far longer than ten periods of the scan.
    private void Suspend(Process process)
    {
        Tool.Signal(process, "STOP");
        _tool.Run("plugins");
        Tool.Signal(process, "CONT");
    }

    private JsonElement AwaitEnd()
    {
        JsonElement run = default;
        for (int i = 0; i < 60; i++)
        {
            run = _tool.Run("runs", "list", "--json").Json[0];
            if (run.GetProperty("outcome").GetString() != "running")
                break;
        }

        return run;
    }
}
