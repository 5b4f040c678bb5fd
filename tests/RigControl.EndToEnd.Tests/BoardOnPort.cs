using System.Diagnostics;

namespace RigControl.EndToEnd.Tests;

/// <summary>The real firmware on a simulated processor, behind a pseudo-terminal with a name of its own, until it is disposed of.</summary>
public sealed class BoardOnPort : IDisposable
{
    private readonly Process _process;

    public BoardOnPort(string folder)
    {
        Port = Path.Combine(folder, "board");
        string host = Path.Combine(Tool.Root, "tests", "RigControl.Board.Simulator.Host", "bin", Tool.Configuration, "net10.0", "RigControl.Board.Simulator.Host.dll");
        _process = Process.Start(new ProcessStartInfo("dotnet", [host, "--elf", Path.Combine(Tool.Root, "shared", "board", "build", "rigboard.elf"), "--link", Port])
        {
            RedirectStandardInput = true, RedirectStandardOutput = true,
        })!;
        _process.StandardOutput.ReadLine();
    }

    /// <summary>What a rig file writes as its port.</summary>
    public string Port { get; }

    /// <summary>Does something to the bench, or asks for its status; returns the answer.</summary>
    public string Tell(string command)
    {
        _process.StandardInput.WriteLine(command);
        _process.StandardInput.Flush();
        return _process.StandardOutput.ReadLine() ?? "";
    }

    public void Kill() => _process.Kill();

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.StandardInput.Close();
            _process.WaitForExit();
        }

        _process.Dispose();
    }
}
