using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>A real plugin that hangs, throws or floods, loaded by the real program: it is named, and the rig is stopped.</summary>
public sealed class MisbehavingPluginTests : IDisposable
{
    private readonly Tool _tool = new();

    [Theory]
    [InlineData("hangs", "max")]
    [InlineData("spins", "max")]
    [InlineData("hangs", "1000")]
    [InlineData("hangs-in-explain", "max")]
    [Trait("Requirement", "SAF-077")]
    public void An_interlock_that_hangs_is_named_and_the_program_ends_with_the_record_safe(string mischief, string pace)
    {
        Said said = RunWithInterlock($"{{ mischief: {mischief}, from: 8 s }}", "--pace", pace);
        Assert.Equal(4, said.ExitCode);
        Assert.Contains("the interlock trouble has not come back for 500 ms; the outputs were stopped and the program ends", said.Errors, StringComparison.Ordinal);
        AssertBrokenOff("the interlock trouble has not come back");
    }

    [Fact]
    public void An_interlock_that_hangs_on_the_real_clock_is_named_too()
    {
        Said said = RunWithInterlock("{ mischief: spins, from: 1 s }", "--operator", "scripted");
        Assert.Equal(4, said.ExitCode);
        Assert.Contains("the interlock trouble has not come back", said.Errors, StringComparison.Ordinal);
        AssertBrokenOff("the interlock trouble has not come back");
    }

    [Fact]
    public void A_device_that_promised_never_to_block_and_hangs_in_lock_step_is_named()
    {
        Said said = RunWithDevice("{ mischief: hangs-in-apply, from: 8 s, says-it-never-blocks: yes }", "--pace", "max");
        Assert.Equal(4, said.ExitCode);
        Assert.Contains("the device trouble has not come back for 500 ms", said.Errors, StringComparison.Ordinal);
        AssertBrokenOff("the device trouble has not come back");
    }

    [Theory]
    [InlineData("hangs-in-read", "device trouble has not answered for 500 ms")]
    [InlineData("hangs-in-apply", "device trouble has not answered for 500 ms")]
    [InlineData("throws", "device trouble failed: the wire is off")]
    [InlineData("floods", "device trouble failed: it wrote more than 4096 samples in one read")]
    [InlineData("changes-channels", "device trouble failed: ")]
    public void A_device_that_misbehaves_on_its_own_thread_is_lost_by_name_before_anything_is_energised(string mischief, string sentence)
    {
        Said said = RunWithDevice($"{{ mischief: {mischief} }}", "--operator", "scripted", "--json");
        Assert.Equal(5, said.ExitCode);
        Assert.Equal("failed", said.Json.GetProperty("outcome").GetString());
        Assert.Contains(sentence, said.Json.GetProperty("note").GetString(), StringComparison.Ordinal);
        Assert.DoesNotContain("spin-up", said.Errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("writes-from-the-future")]
    [InlineData("writes-nonsense")]
    [InlineData("hangs-in-dispose")]
    public void What_harms_nobody_does_not_keep_a_run_from_its_end(string mischief)
    {
        Said said = RunWithDevice($"{{ mischief: {mischief}, says-it-never-blocks: yes }}", "--pace", "max", "--json");
        Assert.Equal(0, said.ExitCode);
        Assert.Equal("completed", said.Json.GetProperty("outcome").GetString());
    }

    [Fact]
    public void A_device_that_starts_threads_without_end_stops_the_rig()
    {
        // Not before the output is live: a machine that falls behind earlier does not prove standstill, and nothing is armed at all.
        Said said = RunWithDevice("{ mischief: leaks-threads, from: 6 s }", "--operator", "scripted", "--json");
        Assert.True(said.ExitCode is 4 or 5, $"exit {said.ExitCode}: {said.Errors}");
        // Starting threads takes the machine's time too: where it is slow, a late answer or a stale reading is found first, and stops as well.
        string found = said.Output + said.Errors;
        Assert.Matches("this program has [0-9]+ threads, [0-9]+ more than when the run began|device trouble has not answered|has had no new reading|late three times", found);
    }

    [Fact]
    public void An_interlock_that_throws_trips_under_its_name()
    {
        Said said = RunWithInterlock("{ mischief: throws, from: 8 s }", "--pace", "max", "--json");
        Assert.Equal(4, said.ExitCode);
        JsonElement trip = said.Json.GetProperty("trips").EnumerateArray().First(t => t.GetProperty("interlock").GetString() == "trouble");
        Assert.Equal("the interlock trouble itself failed", trip.GetProperty("reason").GetString());
    }

    public void Dispose() => _tool.Dispose();

    // The next start says what the run came to, and everything up to the hang is there and the same again.
    private void AssertBrokenOff(string sentence)
    {
        Said list = _tool.Run("runs", "list", "--json");
        Assert.Equal("broken-off", list.Json[0].GetProperty("outcome").GetString());
        foreach (string[] start in new[] { new[] { "runs", "list" }, ["run", "--pace", "max"] })
        {
            Said next = _tool.Run(start);
            Assert.Equal(0, next.ExitCode);
            Assert.Contains("before this broke off", next.Errors, StringComparison.Ordinal);
            Assert.Contains(sentence, next.Errors, StringComparison.Ordinal);
            Assert.Contains("rotor.speed", next.Errors, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("broke off", _tool.Run("runs", "list").Errors, StringComparison.Ordinal);
    }

    private Said RunWithInterlock(string options, params string[] more) => RunWith("interlocks:", $"interlocks:\n  - {{ id: trouble, plugin: misbehaving-interlock, options: {options} }}", more);

    private Said RunWithDevice(string options, params string[] more) => RunWith("devices:", $"devices:\n  - {{ id: trouble, plugin: misbehaving-device, options: {options} }}", more);

    private Said RunWith(string find, string replace, string[] more) => _tool.Run(
    [
        "run", QuickProcedure(), "--rig", _tool.SimulatedRig(find, replace), "--article", "procedures/disc-180.article.yaml",
        "--plugins", _tool.PluginsWith("RigControl.Misbehaving"), .. more,
    ]);

    // Ten seconds of rig time, so that the real clock does not make the tests long.
    private string QuickProcedure() => _tool.Write("quick.yaml", """
        procedure: quick
        requires: []
        steps:
          - arm: { within: 10 s }
          - spin-up: { throttle: 20 %, ramp: 0.5 s, until: { channel: rotor.speed, above: 300 rpm }, timeout: 8 s }
          - hold: { for: 1 s }
          - coast-down: { until: { channel: rotor.speed, below: 60 rpm }, timeout: 60 s }
        """);
}
