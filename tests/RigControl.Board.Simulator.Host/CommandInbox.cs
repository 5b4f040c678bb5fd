using System.Collections.Concurrent;
using System.Diagnostics.CodeAnalysis;
using System.Runtime.InteropServices;

namespace RigControl.Board.Simulator.Host;

/// <summary>Reads commands on a thread of its own, since reading waits; the end of the input ends the program, so that none is orphaned.</summary>
internal sealed class CommandInbox : IDisposable
{
    private const int Room = 256;
    private readonly BlockingCollection<string> lines = new(Room);
    private volatile bool ended;

    public CommandInbox(TextReader input) => new Thread(() => Read(input)) { IsBackground = true, Name = "commands" }.Start();

    /// <summary>Whether the input has ended and every command was taken.</summary>
    public bool Ended => ended && lines.Count == 0;

    public bool TryTake([NotNullWhen(true)] out string? line) => lines.TryTake(out line);

    /// <summary>Ends on a signal, in order.</summary>
    public void End(PosixSignalContext context)
    {
        context.Cancel = true;
        ended = true;
    }

    public void Dispose() => ended = true;

    private void Read(TextReader input)
    {
        while (!ended && input.ReadLine() is { } line)
            lines.Add(line);
        ended = true;
    }
}
