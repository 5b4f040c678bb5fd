using System.Text;

namespace RigControl.Board.Simulator.Board;

/// <summary>
/// The rig board's real firmware on a simulated ATmega328P at 16 MHz. Time is the cycle count and moves only in
/// <see cref="RunUntil"/>, so two runs with the same inputs are the same to the last byte. One thread at a time.
/// </summary>
public sealed unsafe class SimulatedBoard : IDisposable
{
    private const int ErrorSize = 512;
    private readonly BoardHandle handle;

    /// <summary>Loads <paramref name="firmware"/> and powers the board on; every input wire is broken until set.</summary>
    /// <exception cref="BoardException">The file is no AVR program, or the native library is missing.</exception>
    public SimulatedBoard(string firmware)
    {
        byte* error = stackalloc byte[ErrorSize];
        *error = 0;
        try
        {
            handle = NativeBoard.Create(firmware, error, ErrorSize);
        }
        catch (DllNotFoundException)
        {
            throw new BoardException("The simulated board was not built: install gcc, make and libsimavr-dev, then build again.");
        }

        if (handle.IsInvalid)
            throw new BoardException(Encoding.UTF8.GetString(new ReadOnlySpan<byte>(error, ErrorSize)).TrimEnd('\0'));
    }

    /// <summary>Cycles since power-on; a reset does not start it afresh.</summary>
    public ulong Cycle => NativeBoard.Cycle(handle);

    /// <summary>How often the watchdog has reset the processor.</summary>
    public uint WatchdogResets => NativeBoard.WatchdogResets(handle);

    /// <summary>Bytes that the firmware missed, in either direction.</summary>
    public uint BytesLost => NativeBoard.LineLost(handle);

    /// <summary>Output edges that nobody fetched in time; not zero means that measurements are incomplete.</summary>
    public uint EdgesLost => NativeBoard.EdgesLost(handle);

    /// <summary>Runs the firmware to the first instruction boundary at or after <paramref name="cycle"/>.</summary>
    /// <exception cref="BoardException">The processor has stopped for good.</exception>
    public void RunUntil(ulong cycle)
    {
        if (NativeBoard.RunUntil(handle, cycle) != 0)
            throw new BoardException($"The firmware stopped at cycle {Cycle}: invalid instruction, or asleep with interrupts off.");
    }

    /// <summary>Resets the processor at once. RAM keeps its content, as on the chip.</summary>
    public void Reset(ResetCause cause) => NativeBoard.Reset(handle, cause);

    /// <summary>Makes the main loop spin for good, as a fault in the program would, until the watchdog resets the processor.</summary>
    public void Hang(bool interruptsOn = true) => NativeBoard.Hang(handle, interruptsOn ? 1 : 0);

    /// <summary>Puts bytes on the line to the board, one each 20 µs. Returns how many were taken; 4096 may wait.</summary>
    public int Send(ReadOnlySpan<byte> bytes)
    {
        fixed (byte* first = bytes)
            return NativeBoard.LineWrite(handle, first, bytes.Length);
    }

    /// <summary>Fetches bytes of the board whose stop bit is over. Returns their number.</summary>
    public int Receive(Span<byte> room)
    {
        fixed (byte* first = room)
            return NativeBoard.LineRead(handle, first, room.Length);
    }

    /// <summary>Sets the level at an input pin.</summary>
    public void SetInput(BoardPin pin, bool high) => NativeBoard.Input(handle, (int)pin, high ? 1 : 0);

    /// <summary>Sets the voltage at an analogue input, in mV from 0 to 5000; outside, the converter clips.</summary>
    public void SetMillivolts(AnalogueInput input, double millivolts) =>
        NativeBoard.Millivolts(handle, (int)input, (int)Math.Clamp(Math.Round(millivolts), 0, 5000));

    /// <summary>Makes the converter's conversion never end, or lets it end.</summary>
    public void StallConverter(bool stalls) => NativeBoard.ConverterStalls(handle, stalls ? 1 : 0);

    /// <summary>Makes a tachometer pulse every <paramref name="period"/> cycles; 0 makes none.</summary>
    public void SetTachometerPeriod(double period) => NativeBoard.Tachometer(handle, period);

    /// <summary>Makes receiver pulses, both times in cycles; a width of 0 is a lost radio.</summary>
    public void SetReceiver(ulong frame, ulong width) => NativeBoard.Receiver(handle, frame, width);

    /// <summary>Level at an output pin.</summary>
    public bool Output(BoardPin pin) => NativeBoard.Output(handle, (int)pin) != 0;

    /// <summary>Fetches the oldest edges (all outputs, and falling edges of tachometer and receiver) and forgets them. Returns their number.</summary>
    public int ReadEdges(Span<Edge> room)
    {
        fixed (Edge* first = room)
            return NativeBoard.Edges(handle, first, room.Length);
    }

    /// <inheritdoc/>
    public void Dispose() => handle.Dispose();
}
