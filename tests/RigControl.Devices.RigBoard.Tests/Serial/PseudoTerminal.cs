using System.Runtime.InteropServices;

namespace RigControl.Devices.RigBoard.Tests.Serial;

/// <summary>A pair of connected terminals from the operating system: one end for a board double, the other opened as a serial port.</summary>
internal sealed partial class PseudoTerminal : IDisposable
{
    private const int Nonblocking = 0x800;
    private const int SetFlags = 4;
    private int _master;
    private int _slave;

    public PseudoTerminal()
    {
        if (OpenPair(out _master, out _slave, 0, 0, 0) != 0)
            throw new InvalidOperationException("this system gives no pseudo-terminal");
        Span<byte> settings = stackalloc byte[256];
        _ = GetSettings(_slave, settings);
        MakeRaw(settings);
        _ = SetSettings(_slave, 0, settings);
        _ = Control(_master, SetFlags, Nonblocking);
        Name = Marshal.PtrToStringUTF8(NameOf(_slave))!;
    }

    /// <summary>What a rig file would name as the port.</summary>
    public string Name { get; }

    /// <summary>What the host has sent since the last call.</summary>
    public byte[] Take()
    {
        Span<byte> room = stackalloc byte[4096];
        nint count = Read(_master, room, room.Length);
        return count > 0 ? room[..(int)count].ToArray() : [];
    }

    public void Send(ReadOnlySpan<byte> bytes) => _ = Write(_master, bytes, bytes.Length);

    /// <summary>Pulls the cable.</summary>
    public void Unplug()
    {
        Close(ref _slave);
        Close(ref _master);
    }

    public void Dispose() => Unplug();

    private static void Close(ref int descriptor)
    {
        if (descriptor >= 0)
            _ = CloseOne(descriptor);
        descriptor = -1;
    }

    [LibraryImport("libc", EntryPoint = "openpty")]
    private static partial int OpenPair(out int master, out int slave, nint name, nint settings, nint size);

    [LibraryImport("libc", EntryPoint = "ttyname")]
    private static partial nint NameOf(int descriptor);

    [LibraryImport("libc", EntryPoint = "tcgetattr")]
    private static partial int GetSettings(int descriptor, Span<byte> settings);

    [LibraryImport("libc", EntryPoint = "tcsetattr")]
    private static partial int SetSettings(int descriptor, int when, Span<byte> settings);

    [LibraryImport("libc", EntryPoint = "cfmakeraw")]
    private static partial void MakeRaw(Span<byte> settings);

    [LibraryImport("libc", EntryPoint = "fcntl")]
    private static partial int Control(int descriptor, int command, int argument);

    [LibraryImport("libc", EntryPoint = "read")]
    private static partial nint Read(int descriptor, Span<byte> buffer, nint length);

    [LibraryImport("libc", EntryPoint = "write")]
    private static partial nint Write(int descriptor, ReadOnlySpan<byte> buffer, nint length);

    [LibraryImport("libc", EntryPoint = "close")]
    private static partial int CloseOne(int descriptor);
}
