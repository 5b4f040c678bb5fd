using System.Diagnostics;
using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>
/// The failsafe verified on the real firmware on a simulated processor, over a serial line, by an operator whose acts are typed
/// at a terminal and whose hands open the lid and press the stop when they are asked to.
/// </summary>
[Collection(RealFirmware.Name)]
public sealed class FailsafeTests : IDisposable
{
    private static readonly (string Asked, string[] Done)[] Hands =
    [
        ("Pull at the locked lid", ["lid pull"]),
        ("Unplug the lead", ["lid closed", "lid-a broken"]),
        ("Plug the lead in", ["lid-a mended"]),
        ("open the lid.", ["lid open"]),
        ("Open the lid;", ["lid open"]),
        ("Close the lid", ["lid closed"]),
        ("Press the stop", ["stop press"]),
        ("Release the stop", ["stop release"]),
        ("Push the stick", ["stick open"]),
        ("Put the stick back", ["stick stop"]),
        ("Switch the transmitter off", ["radio off"]),
        ("Switch the transmitter on", ["radio on"]),
    ];

    private const int RefusalsBeforeAnotherTurn = 50;

    private const string Once = """
        procedure: brief-turn
        requires: [lid-closed, lid-locked, stop-clear, failsafe-confirmed, over-speed]
        steps:
          - arm: { within: 20 s }
          - spin-up: { throttle: 20 %, ramp: 1 s, until: { channel: rotor.speed, above: 1000 rpm }, timeout: 8 s }
          - coast-down: { until: { channel: rotor.speed, below: 100 rpm }, timeout: 60 s }
        figures: [peak-speed]
        """;

    private readonly Tool _tool = new();
    private BoardOnPort? _board;

    [Trait("Requirement", "SAF-078")]
    [Fact]
    public void A_whole_verification_on_the_real_firmware_gives_a_proof_on_which_a_rotor_runs()
    {
        string rig = PowerUp();
        using Process verifying = _tool.Type("failsafe", "--rig", rig, "--article", Article, "--json");
        string said = Operate(verifying);
        verifying.WaitForExit();
        Assert.True(verifying.ExitCode == 0, said);
        JsonElement document = JsonDocument.Parse(said[said.IndexOf("\n{", StringComparison.Ordinal)..]).RootElement;
        Assert.True(document.GetProperty("proof").GetProperty("valid").GetBoolean());
        Assert.All(document.GetProperty("provocations").EnumerateArray(), p => Assert.True(p.GetProperty("passed").GetBoolean(), p.GetRawText()));
        string[] left = [.. document.GetProperty("notProvoked").EnumerateArray().Select(n => n.GetProperty("name").GetString()!)];
        Assert.Equal(["board-limits", "interlocks"], left);
        Assert.Equal(0, _tool.Run("replay", "last").ExitCode);

        using Process running = _tool.Type("run", _tool.Write("once.yaml", Once), "--rig", rig, "--article", Article);
        string run = Operate(running, runs: true);
        running.WaitForExit();
        Assert.True(running.ExitCode == 0, run);
        Assert.Contains("proven by the verification in this logbook; not provoked there: board-limits, interlocks", run, StringComparison.Ordinal);
        Assert.DoesNotContain("it is verified first", run, StringComparison.Ordinal);
    }

    public void Dispose()
    {
        _board?.Dispose();
        _tool.Dispose();
    }

    private static string Article => Path.Combine(Tool.Root, "procedures", "disc-180.article.yaml");

    private string PowerUp()
    {
        _board = new BoardOnPort(_tool.Folder);
        return _tool.Write("board.rig.yaml", File.ReadAllText(Path.Combine(Tool.Root, "procedures", "board.rig.yaml"))
            .Replace("/dev/ttyUSB0", _board.Port, StringComparison.Ordinal)
            .Replace("over-speed: 14000 rpm", "over-speed: 10000 rpm", StringComparison.Ordinal)
            .Replace("limit: 13500 rpm", "limit: 9500 rpm", StringComparison.Ordinal));
    }

    private string Operate(Process terminal, bool runs = false)
    {
        List<string> shown = [];
        int refused = 0;
        while (terminal.StandardOutput.ReadLine() is { } line)
        {
            shown.Add(line);
            if (line.Contains("refused  the key has not", StringComparison.Ordinal))
                refused++;
            // On a busy machine the key may have been out of sight since it was turned; a turn takes longer than many a refusal.
            if (line.Contains("state    idle", StringComparison.Ordinal) || refused == RefusalsBeforeAnotherTurn)
            {
                _board!.Tell("key turn");
                refused = 0;
            }

            foreach (string done in Hands.FirstOrDefault(h => line.Contains(h.Asked, StringComparison.Ordinal)).Done ?? [])
                _board!.Tell(done);
            string? key = line switch
            {
                _ when line.Contains("state    safe-stop", StringComparison.Ordinal) => Undo(),
                _ when line.Contains("reset refused", StringComparison.Ordinal) || line.Contains("refused", StringComparison.Ordinal) && shown[^2].Contains("safe-stop", StringComparison.Ordinal) => "r",
                // A verification says when it comes to its arming; a run begins with it.
                _ when runs && line.Contains("state    idle", StringComparison.Ordinal) && !shown.Exists(l => l.Contains("state    spin-up", StringComparison.Ordinal)) => "a",
                // On a busy machine a reading may be missed, and the stand is proven anew: a person presses again.
                _ when line.Contains(", arm,", StringComparison.Ordinal) || line.Contains("refused  the key", StringComparison.Ordinal) || line.Contains("arm refused: the rotor", StringComparison.Ordinal) => "a",
                _ when line.Contains("state    arming", StringComparison.Ordinal) || line.Contains("start refused", StringComparison.Ordinal) => "s",
                _ when line.Contains("Which way", StringComparison.Ordinal) => "1",
                _ => null,
            };
            if (key is null)
                continue;
            terminal.StandardInput.Write(key);
            terminal.StandardInput.Flush();
        }

        return string.Join('\n', shown);
    }

    private string Undo()
    {
        _board!.Tell("lid closed");
        _board.Tell("stop release");
        return "r";
    }
}
