using System.Diagnostics;
using RigControl.Devices.RigBoard.Tests.Double;

namespace RigControl.Devices.RigBoard.Tests.Serial;

/// <summary>A board double that lives in real time behind a pseudo-terminal, on a thread of its own.</summary>
internal sealed class LivingBoard : IDisposable
{
    private readonly Thread _thread;
    private volatile bool _ending;

    public LivingBoard()
    {
        Board.Write = line => Terminal.Send(line);
        _thread = new Thread(Live) { IsBackground = true, Name = "board double" };
        _thread.Start();
    }

    public PseudoTerminal Terminal { get; } = new();

    public BoardDouble Board { get; } = new();

    /// <summary>Stops the board and pulls its cable.</summary>
    public void Unplug()
    {
        _ending = true;
        _thread.Join();
        Terminal.Unplug();
    }

    public void Dispose() => Unplug();

    // A machine that was busy elsewhere makes the board late, never fast: it lives a millisecond for each that passed, at most ten at once.
    private void Live()
    {
        Stopwatch watch = Stopwatch.StartNew();
        long lived = 0;
        while (!_ending)
        {
            Board.Hear(Terminal.Take());
            long due = watch.ElapsedMilliseconds;
            lived = Math.Max(lived, due - 10);
            for (; lived < due; lived++)
                Board.Tick();
            Thread.Yield();
            Thread.Sleep(TimeSpan.FromMicroseconds(500));
        }
    }
}
