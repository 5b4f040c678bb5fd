using System.ComponentModel;
using System.Runtime.InteropServices;
using System.Text;

namespace RigControl.Board.Simulator.Board;

/// <summary>A pseudo-terminal that stands for the board's serial port. It stays up when a client leaves; nothing here waits.</summary>
public sealed unsafe class PseudoTerminal : IDisposable
{
    private const int PathSize = 128;
    private readonly int terminal;
    private bool closed;

    /// <summary>Opens a pseudo-terminal in raw mode.</summary>
    /// <exception cref="Win32Exception">The system has none to give.</exception>
    public PseudoTerminal()
    {
        byte* path = stackalloc byte[PathSize];
        terminal = NativeBoard.TerminalOpen(path, PathSize);
        if (terminal < 0)
            throw new Win32Exception(Marshal.GetLastPInvokeError());
        Path = Encoding.UTF8.GetString(MemoryMarshal.CreateReadOnlySpanFromNullTerminated(path));
    }

    /// <summary>The path that a client opens as its serial port.</summary>
    public string Path { get; }

    /// <summary>Fetches bytes that a client wrote. Returns their number, 0 for none.</summary>
    public int Read(Span<byte> room)
    {
        fixed (byte* first = room)
            return NativeBoard.TerminalRead(terminal, first, room.Length);
    }

    /// <summary>Hands bytes to the client. Returns how many fitted; the rest is lost, as on a line that nobody reads.</summary>
    public int Write(ReadOnlySpan<byte> bytes)
    {
        fixed (byte* first = bytes)
            return NativeBoard.TerminalWrite(terminal, first, bytes.Length);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (!closed)
            NativeBoard.TerminalClose(terminal);
        closed = true;
    }
}
