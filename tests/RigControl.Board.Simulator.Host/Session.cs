using System.Diagnostics;
using System.Runtime.InteropServices;
using RigControl.Board.Simulator.Bench;
using RigControl.Board.Simulator.Board;
using RigControl.Physics;

namespace RigControl.Board.Simulator.Host;

/// <summary>A board on a bench behind a pseudo-terminal, at the wall clock's pace, until its commands end.</summary>
public sealed class Session : IDisposable
{
    private readonly PseudoTerminal terminal = new();
    private readonly BoardOnBench rig;
    private readonly TerminalLink? link;
    private readonly Pacer pacer = new();
    private const int NoiseBytes = 300;
    private readonly Random noise = new(1);
    private readonly byte[] room = new byte[1024];

    /// <summary>Powers the board on and opens the terminal.</summary>
    /// <exception cref="BoardException">The firmware cannot be loaded.</exception>
    /// <exception cref="IOException">The link's name is taken by something that is no link.</exception>
    public Session(string firmware, string? linkName, ulong seed)
    {
        rig = new BoardOnBench(firmware, new BenchParameters(), seed);
        link = linkName is null ? null : new TerminalLink(linkName, terminal.Path);
    }

    /// <summary>Says the terminal's path, then obeys a command a line until the input ends or the process is told to stop.</summary>
    public void Run(TextReader input, TextWriter output)
    {
        using var inbox = new CommandInbox(input);
        using var terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, context => inbox.End(context));
        using var interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, context => inbox.End(context));
        output.WriteLine(terminal.Path);
        output.Flush();
        var wall = Stopwatch.StartNew();
        while (!inbox.Ended)
        {
            Obey(inbox, output);
            ulong target = pacer.Target(wall.Elapsed.TotalSeconds, rig.Board.Cycle);
            Advance(target);
            // Only a board that keeps up may rest: a machine that is just fast enough would fall behind by resting.
            if (pacer.Target(wall.Elapsed.TotalSeconds, rig.Board.Cycle) < target + BoardOnBench.Slice)
                Thread.Sleep(1);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        link?.Dispose();
        terminal.Dispose();
        rig.Dispose();
    }

    private void Obey(CommandInbox inbox, TextWriter output)
    {
        while (inbox.TryTake(out string? line))
        {
            output.WriteLine(line.Trim() == BenchCommands.Noise ? Disturb() : BenchCommands.Obey(rig, line));
            output.Flush();
        }
    }

    // A spark beside the cable: both ends read what nobody sent.
    private string Disturb()
    {
        noise.NextBytes(room.AsSpan(0, NoiseBytes));
        terminal.Write(room.AsSpan(0, NoiseBytes));
        noise.NextBytes(room.AsSpan(0, NoiseBytes));
        rig.Board.Send(room.AsSpan(0, NoiseBytes));
        return $"ok: {BenchCommands.Noise}";
    }

    private void Advance(ulong target)
    {
        while (rig.Board.Cycle < target)
        {
            Exchange();
            rig.RunUntil(Math.Min(target, rig.Board.Cycle + BoardOnBench.Slice));
        }
    }

    /// <summary>Bytes that nobody reads are lost, as on a real line.</summary>
    private void Exchange()
    {
        int count;
        while ((count = terminal.Read(room)) > 0)
            rig.Board.Send(room.AsSpan(0, count));
        while ((count = rig.Board.Receive(room)) > 0)
            terminal.Write(room.AsSpan(0, count));
    }
}
