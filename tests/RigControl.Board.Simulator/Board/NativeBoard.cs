using System.Runtime.InteropServices;

namespace RigControl.Board.Simulator.Board;

/// <summary>The functions of <c>native/boardsim.h</c>, where each is described.</summary>
internal static unsafe partial class NativeBoard
{
    private const string Library = "boardsim";

    [LibraryImport(Library, EntryPoint = "boardsim_create", StringMarshalling = StringMarshalling.Utf8)]
    public static partial BoardHandle Create(string elf, byte* error, int errorSize);

    [LibraryImport(Library, EntryPoint = "boardsim_free")]
    public static partial void Free(nint board);

    [LibraryImport(Library, EntryPoint = "boardsim_reset")]
    public static partial void Reset(BoardHandle board, ResetCause cause);

    [LibraryImport(Library, EntryPoint = "boardsim_run_until")]
    public static partial int RunUntil(BoardHandle board, ulong cycle);

    [LibraryImport(Library, EntryPoint = "boardsim_hang")]
    public static partial void Hang(BoardHandle board, int interruptsOn);

    [LibraryImport(Library, EntryPoint = "boardsim_cycle")]
    public static partial ulong Cycle(BoardHandle board);

    [LibraryImport(Library, EntryPoint = "boardsim_watchdog_resets")]
    public static partial uint WatchdogResets(BoardHandle board);

    [LibraryImport(Library, EntryPoint = "boardsim_line_write")]
    public static partial int LineWrite(BoardHandle board, byte* bytes, int count);

    [LibraryImport(Library, EntryPoint = "boardsim_line_read")]
    public static partial int LineRead(BoardHandle board, byte* bytes, int room);

    [LibraryImport(Library, EntryPoint = "boardsim_line_lost")]
    public static partial uint LineLost(BoardHandle board);

    [LibraryImport(Library, EntryPoint = "boardsim_input")]
    public static partial void Input(BoardHandle board, int pin, int level);

    [LibraryImport(Library, EntryPoint = "boardsim_millivolts")]
    public static partial void Millivolts(BoardHandle board, int channel, int millivolts);

    [LibraryImport(Library, EntryPoint = "boardsim_converter_stalls")]
    public static partial void ConverterStalls(BoardHandle board, int stalls);

    [LibraryImport(Library, EntryPoint = "boardsim_tachometer")]
    public static partial void Tachometer(BoardHandle board, double period);

    [LibraryImport(Library, EntryPoint = "boardsim_receiver")]
    public static partial void Receiver(BoardHandle board, ulong frame, ulong width);

    [LibraryImport(Library, EntryPoint = "boardsim_output")]
    public static partial int Output(BoardHandle board, int pin);

    [LibraryImport(Library, EntryPoint = "boardsim_edges")]
    public static partial int Edges(BoardHandle board, Edge* edges, int room);

    [LibraryImport(Library, EntryPoint = "boardsim_edges_lost")]
    public static partial uint EdgesLost(BoardHandle board);

    [LibraryImport(Library, EntryPoint = "boardsim_terminal_open", SetLastError = true)]
    public static partial int TerminalOpen(byte* path, int pathSize);

    [LibraryImport(Library, EntryPoint = "boardsim_terminal_read")]
    public static partial int TerminalRead(int terminal, byte* bytes, int room);

    [LibraryImport(Library, EntryPoint = "boardsim_terminal_write")]
    public static partial int TerminalWrite(int terminal, byte* bytes, int count);

    [LibraryImport(Library, EntryPoint = "boardsim_terminal_close")]
    public static partial void TerminalClose(int terminal);
}
