using System.Diagnostics;
using RigControl.Board.Simulator.Line;

namespace RigControl.Board.Tests.Host;

/// <summary>The program as another process sees it: a terminal that speaks, commands that are obeyed, an end without orphans.</summary>
public sealed class ProgramTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public void A_client_that_opens_the_terminal_hears_good_lines_of_the_board()
    {
        using Process program = Start();
        string path = program.StandardOutput.ReadLine()!;
        Assert.True(Hears(path));
        Assert.True(Hears(path)); // closing it does not take the line down
        End(program);
    }

    [Fact]
    public void The_link_leads_to_the_terminal_and_goes_with_the_program()
    {
        string link = Path.Combine(Path.GetTempPath(), $"rigboard-{Guid.NewGuid():N}");
        using Process program = Start("--link", link);
        Assert.Equal(program.StandardOutput.ReadLine(), new FileInfo(link).LinkTarget);
        Assert.True(Hears(link));
        End(program);
        Assert.False(Path.Exists(link));
    }

    [Fact]
    public void Commands_typed_are_answered_one_a_line()
    {
        using Process program = Start();
        program.StandardOutput.ReadLine();
        program.StandardInput.WriteLine("lid open");
        program.StandardInput.WriteLine("status");
        Assert.Equal("ok: lid open", program.StandardOutput.ReadLine());
        Assert.Contains("lid 0", program.StandardOutput.ReadLine());
        End(program);
    }

    [Fact]
    public void A_missing_firmware_ends_the_program_with_a_sentence()
    {
        using Process program = Start("--elf", "/nowhere/none.elf");
        Assert.Contains("/nowhere/none.elf is not a readable AVR program", program.StandardError.ReadToEnd());
        Assert.True(program.WaitForExit(Patience));
        Assert.Equal(1, program.ExitCode);
    }

    private static Process Start(params string[] options)
    {
        string[] elf = options.Contains("--elf") ? [] : ["--elf", Programs.Firmware];
        string host = Path.Combine(AppContext.BaseDirectory, "RigControl.Board.Simulator.Host.dll");
        return Process.Start(new ProcessStartInfo("dotnet", [host, .. elf, .. options])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
    }

    private static void End(Process program)
    {
        program.StandardInput.Close();
        Assert.True(program.WaitForExit(Patience));
        Assert.Equal(0, program.ExitCode);
    }

    private static bool Hears(string path)
    {
        using var line = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite, bufferSize: 0);
        var reader = new LineReader();
        var room = new byte[256];
        int good = 0;
        for (int n = 0; n < 2000 && good < 20; n++)
            good += reader.Feed(room.AsSpan(0, line.Read(room))).Count(heard => heard.Word == "now");
        return good >= 20;
    }
}
