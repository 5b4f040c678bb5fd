using System.Diagnostics;
using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>A board is found at its port, shows its inputs with everything off, and is written only after a word of consent.</summary>
[Collection(RealFirmware.Name)]
public sealed class BoardCommandTests : IDisposable
{
    private readonly Tool _tool = new();

    [Fact]
    public void A_board_is_found_at_its_port_with_its_firmware()
    {
        using BoardOnPort board = new(_tool.Folder);
        Said said = _tool.Run("board", "find", "--port", board.Port);
        Assert.Equal(0, said.ExitCode);
        Assert.Matches($@"(?m)^{board.Port}: rig board \S+, firmware \d+\.\d+\.\d+$", said.Output);
        Assert.Contains($"port: {board.Port}", said.Output, StringComparison.Ordinal);
        JsonElement found = _tool.Run("board", "find", "--port", board.Port, "--json").Json.GetProperty("ports")[0];
        Assert.True(found.GetProperty("board").GetBoolean());
    }

    [Fact]
    public void Where_no_board_is_it_is_said_what_to_check()
    {
        Said said = _tool.Run("board", "find", "--port", Path.Combine(_tool.Folder, "nothing"));
        Assert.Equal(5, said.ExitCode);
        Assert.Contains("there is no serial port", said.Output, StringComparison.Ordinal);
        Assert.Contains("no rig board was found. What to check:", said.Errors, StringComparison.Ordinal);
        Assert.Contains("Are RX and TX crossed", said.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Signals_of_a_board_come_with_pulses_at_stop_no_power_and_a_rotor_at_rest()
    {
        using BoardOnPort board = new(_tool.Folder);
        string rig = Rig(board);
        JsonElement seen = _tool.Run("signals", "--rig", rig, "--article", "procedures/bench-motor.article.yaml", "--json").Json;
        Assert.Equal("SafeStop", seen.GetProperty("state").GetString());
        Assert.False(seen.GetProperty("simulated").GetBoolean());
        Assert.Equal(0, Value(seen, "output.power"));
        // The board reads its own pulse back at the wall clock's pace.
        Assert.Equal(1000, Value(seen, "output.pulse"), 10.0);
        Assert.Equal(1, Value(seen, "enclosure.lid"));
        Assert.Contains("contactor 0", board.Tell("status"), StringComparison.Ordinal);
        Assert.Contains("speed 0.0 rpm", board.Tell("status"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_lid_that_is_opened_is_seen_live()
    {
        using BoardOnPort board = new(_tool.Folder);
        board.Tell("lid open");
        JsonElement seen = _tool.Run("signals", "--rig", Rig(board), "--article", "procedures/bench-motor.article.yaml", "--json").Json;
        Assert.Equal(0, Value(seen, "enclosure.lid"));
        Assert.Equal(1, Value(seen, "enclosure.lid-open"));
    }

    [Fact]
    public void A_board_that_dies_while_it_is_looked_at_is_named()
    {
        using BoardOnPort board = new(_tool.Folder);
        using Process process = _tool.Begin("signals", "--rig", Rig(board), "--article", "procedures/bench-motor.article.yaml");
        Assert.NotNull(process.StandardOutput.ReadLine());
        board.Kill();
        Said said = Tool.End(process);
        Assert.Equal(5, said.ExitCode);
        Assert.Contains("board", said.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void The_firmware_is_written_after_the_word_and_never_a_fuse()
    {
        Said said = Flash("flash", Avrdude(0));
        Assert.Equal(0, said.ExitCode);
        string called = File.ReadAllText(Path.Combine(_tool.Folder, "called"));
        Assert.Matches(@"-p m328p -c usb-thing -P /dev/programmer -U flash:w:.*rigboard\.hex:i\n$", called);
        Assert.DoesNotContain("fuse", called, StringComparison.Ordinal);
        Assert.Contains("Fuses are not written", said.Errors, StringComparison.Ordinal);
        Assert.Contains("pack disconnected", said.Errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("yes")]
    [InlineData("")]
    [InlineData(null)]
    public void Without_the_word_nothing_is_written(string? answer)
    {
        Said said = Flash(answer, Avrdude(0));
        Assert.Equal(3, said.ExitCode);
        Assert.Contains("nothing was written", said.Errors, StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(_tool.Folder, "called")));
    }

    [Fact]
    public void A_programmer_that_fails_is_told_with_what_it_means()
    {
        Said said = Flash("flash", Avrdude(1));
        Assert.Equal(5, said.ExitCode);
        Assert.Contains("avrdude ended with code 1", said.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Missing_avrdude_and_missing_firmware_are_both_told_at_once()
    {
        Said said = _tool.Run(
            "board", "flash", "--programmer", "usb-thing", "--avrdude", Path.Combine(_tool.Folder, "no-avrdude"), "--hex", Path.Combine(_tool.Folder, "no.hex"));
        Assert.Equal(3, said.ExitCode);
        Assert.Contains("install avrdude", said.Errors, StringComparison.Ordinal);
        Assert.Contains("there is no file", said.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_damaged_firmware_file_is_not_written()
    {
        string whole = File.ReadAllText(Path.Combine(Tool.Root, "shared", "board", "build", "rigboard.hex"));
        string damaged = _tool.Write("damaged.hex", whole.Replace(":10", ":11", StringComparison.Ordinal));
        Said said = Flash("flash", Avrdude(0), damaged);
        Assert.Equal(3, said.ExitCode);
        Assert.Contains("line 1 is damaged", said.Errors, StringComparison.Ordinal);
    }

    public void Dispose() => _tool.Dispose();

    private static double Value(JsonElement seen, string channel) =>
        seen.GetProperty("channels").EnumerateArray().Single(c => c.GetProperty("name").GetString() == channel).GetProperty("value").GetDouble();

    private string Rig(BoardOnPort board) => _tool.Write("board.rig.yaml", File.ReadAllText(Path.Combine(Tool.Root, "procedures", "board.rig.yaml"))
        .Replace("/dev/ttyUSB0", board.Port, StringComparison.Ordinal));

    /// <summary>A stand-in that notes how it was called to write, and ends with a code.</summary>
    private string Avrdude(int code)
    {
        string script = _tool.Write("avrdude", $"#!/bin/sh\n[ \"$1\" = '-?' ] && exit 0\necho \"$@\" >> {_tool.Folder}/called\nexit {code}\n");
        using Process chmod = Process.Start("chmod", ["+x", script]);
        chmod.WaitForExit();
        return script;
    }

    private Said Flash(string? answer, string avrdude, string? hex = null)
    {
        string[] file = hex is null ? [] : ["--hex", hex];
        using Process process = _tool.Begin(["board", "flash", "--programmer", "usb-thing", "--programmer-port", "/dev/programmer", "--avrdude", avrdude, .. file]);
        if (answer is not null)
            process.StandardInput.WriteLine(answer);
        return Tool.End(process);
    }
}
