using System.Diagnostics;
using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>
/// The whole way on real parts: the real firmware on a simulated processor, a serial line, and an operator whose acts
/// are typed at a terminal. Nothing here is declared simulated.
/// </summary>
[Collection(RealFirmware.Name)]
public sealed class FirmwareTests : IDisposable
{
    private const string Procedure = """
        procedure: enclosed-spin-up-once
        repeat: 1
        requires: [lid-closed, lid-locked, stop-clear, failsafe-confirmed, over-speed, motor-temperature]
        steps:
          - arm: { within: 10 s }
          - spin-up: { throttle: 40 %, ramp: 1 s, until: { channel: rotor.speed, above: 3000 rpm }, timeout: 8 s }
          - hold: { for: 2 s }
          - coast-down: { until: { channel: rotor.speed, below: 100 rpm }, timeout: 60 s }
        figures: [peak-speed, spin-up-time, peak-current, charge-used, coast-down-time]
        """;

    private readonly Tool _tool = new();
    private BoardOnPort? _board;

    [Fact]
    public void An_operator_runs_the_enclosed_spin_up_on_the_real_firmware()
    {
        using Process terminal = Begin("procedures/bench-motor.article.yaml");
        string said = Operate(terminal);
        terminal.WaitForExit();
        Assert.Contains("the procedure is done", said, StringComparison.Ordinal);
        Assert.Equal(0, terminal.ExitCode);
        JsonElement run = _tool.Run("runs", "show", "last", "--json").Json;
        Assert.Equal("completed", run.GetProperty("outcome").GetString());
        Assert.False(run.GetProperty("simulated").GetBoolean());
        Assert.Empty(run.GetProperty("trips").EnumerateArray());
        // A bare motor runs down within a few turns: where no turn ended below the rest speed, the figure says so instead of a number.
        Assert.All(run.GetProperty("figures").EnumerateArray(), f => Assert.True(
            f.GetProperty("value").ValueKind == JsonValueKind.Number || f.GetProperty("note").GetString()!.StartsWith("the speed never fell to", StringComparison.Ordinal), f.GetRawText()));
        // Kv 1000 rpm/V at 40 % of some 12.5 V, less losses.
        double peak = run.GetProperty("figures")[0].GetProperty("value").GetDouble();
        Assert.InRange(peak, 3500, 5500);
        Assert.Equal(0, _tool.Run("replay", "last").ExitCode);
    }

    // The key lies closed from before: a bridge across its terminals would look the same.
    [Trait("Requirement", "SAF-087")]
    [Fact]
    public void A_key_that_was_not_turned_arms_no_board()
    {
        using Process terminal = Begin("procedures/bench-motor.article.yaml");
        _board!.Tell("key close");
        string said = Operate(terminal, turnsKey: false);
        terminal.WaitForExit();
        Assert.Contains("refused  the key has not been opened and closed since the reset: open it, then close it", said, StringComparison.Ordinal);
        Assert.DoesNotContain("state    arming", said, StringComparison.Ordinal);
    }

    [Fact]
    public void A_lid_opened_while_the_motor_turns_stops_it()
    {
        using Process terminal = Begin("procedures/bench-motor.article.yaml");
        string said = Operate(terminal, whenHeld: () => _board!.Tell("lid open"));
        terminal.WaitForExit();
        Assert.Equal(4, terminal.ExitCode);
        Assert.Contains("TRIP", said, StringComparison.Ordinal);
        JsonElement run = _tool.Run("runs", "show", "last", "--json").Json;
        Assert.Equal("safe-stop", run.GetProperty("outcome").GetString());
    }

    [Fact]
    public void A_board_that_dies_in_mid_run_is_named_and_the_run_ends_in_safe_stop()
    {
        using Process terminal = Begin("procedures/bench-motor.article.yaml");
        Operate(terminal, whenHeld: () => _board!.Kill());
        terminal.WaitForExit();
        Assert.Equal(4, terminal.ExitCode);
        JsonElement run = _tool.Run("runs", "show", "last", "--json").Json;
        Assert.Contains("board", run.GetProperty("note").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_board_that_starts_again_in_mid_run_is_named_and_the_run_ends_in_safe_stop()
    {
        using Process terminal = Begin("procedures/bench-motor.article.yaml");
        Operate(terminal, whenHeld: () => _board!.Tell("reset"));
        terminal.WaitForExit();
        Assert.Equal(4, terminal.ExitCode);
        JsonElement run = _tool.Run("runs", "show", "last", "--json").Json;
        // While it starts, the board tests its memory and says nothing; on a slow machine that silence is noticed first.
        Assert.Matches("the board on .* has (started again in mid-session|been silent for [0-9]+ ms)", run.GetProperty("note").GetString());
    }

    [Fact]
    public void Garbage_on_the_line_changes_no_reading_and_no_demand()
    {
        using Process terminal = Begin("procedures/bench-motor.article.yaml");
        Operate(terminal, whenHeld: () => _board!.Tell("noise"));
        terminal.WaitForExit();
        JsonElement run = _tool.Run("runs", "show", "last", "--json").Json;
        Assert.True(run.GetProperty("outcome").GetString() == "completed", run.GetRawText());
        Assert.InRange(run.GetProperty("figures")[0].GetProperty("value").GetDouble(), 3500, 5500);
        Assert.Equal(0, _tool.Run("replay", "last").ExitCode);
    }

    [Fact]
    public void A_rotor_on_a_real_rig_is_refused_to_an_operator_who_leaves_the_verification_that_comes_first()
    {
        using Process terminal = Begin("procedures/disc-180.article.yaml", limit: 9500);
        List<string> said = [];
        while (terminal.StandardOutput.ReadLine() is { } line)
        {
            said.Add(line);
            if (line.Contains("state    safe-stop", StringComparison.Ordinal))
                Type(terminal, "q");
        }

        terminal.WaitForExit();
        Assert.Equal(3, terminal.ExitCode);
        Assert.Contains(said, l => l.Contains("it is verified first", StringComparison.Ordinal));
        Assert.Contains(said, l => l.Contains("only with a valid failsafe proof", StringComparison.Ordinal));
    }

    [Fact]
    public void A_limit_above_what_the_rotor_allows_is_a_mistake_in_the_file()
    {
        using Process terminal = Begin("procedures/disc-180.article.yaml");
        string said = terminal.StandardOutput.ReadToEnd();
        terminal.WaitForExit();
        Assert.Equal(2, terminal.ExitCode);
        Assert.Contains("10000 rpm", said, StringComparison.Ordinal);
    }

    public void Dispose()
    {
        _board?.Dispose();
        _tool.Dispose();
    }

    /// <summary>Powers the board on and starts a run in a terminal of its own.</summary>
    private Process Begin(string article, int limit = 13500)
    {
        _board = new BoardOnPort(_tool.Folder);
        string rig = _tool.Write("board.rig.yaml", File.ReadAllText(Path.Combine(Tool.Root, "procedures", "board.rig.yaml"))
            .Replace("/dev/ttyUSB0", _board.Port, StringComparison.Ordinal)
            .Replace("over-speed: 14000 rpm", $"over-speed: {limit + 500} rpm", StringComparison.Ordinal)
            .Replace("limit: 13500 rpm", $"limit: {limit} rpm", StringComparison.Ordinal));
        string procedure = _tool.Write("once.yaml", Procedure);
        return _tool.Type("run", procedure, "--rig", rig, "--article", Path.Combine(Tool.Root, article));
    }

    /// <summary>Types confirmation, reset, arm and start, each when it is due, and once more when it was refused. Returns all that was shown.</summary>
    private string Operate(Process terminal, Action? whenHeld = null, bool turnsKey = true)
    {
        List<string> shown = [];
        Type(terminal, "confirmed\n");
        while (terminal.StandardOutput.ReadLine() is { } line)
        {
            shown.Add(line);
            if (turnsKey && line.Contains("state    idle", StringComparison.Ordinal))
                _board!.Tell("key turn");
            string? key = line switch
            {
                _ when line.Contains("refused  the key", StringComparison.Ordinal) => turnsKey ? "a" : "q",
                _ when line.Contains("state    safe-stop", StringComparison.Ordinal) && shown.Count < 12 => "r",
                _ when line.Contains("reset refused", StringComparison.Ordinal) => "r",
                _ when line.Contains("state    idle", StringComparison.Ordinal) && !shown.Exists(l => l.Contains("state    hold", StringComparison.Ordinal)) => "a",
                _ when line.Contains("state    arming", StringComparison.Ordinal) => "s",
                _ when line.Contains("start refused", StringComparison.Ordinal) => "s",
                _ => null,
            };
            if (key is not null)
                Type(terminal, key);
            if (whenHeld is not null && line.Contains("state    hold", StringComparison.Ordinal))
                whenHeld();
        }

        return string.Join('\n', shown);
    }

    private static void Type(Process terminal, string keys)
    {
        terminal.StandardInput.Write(keys);
        terminal.StandardInput.Flush();
    }
}
