using System.IO.Ports;
using RigControl.Contracts;

namespace RigControl.Devices.RigBoard.Serial;

/// <summary>
/// The line through an operating system's serial port, for this process alone. DTR, RTS and the other control lines are
/// never touched: many ports lack them, and on some boards one of them is wired to reset.
/// </summary>
internal sealed class SerialLine : ILine
{
    /// <summary>Speed of the board's line, baud.</summary>
    public const int Baud = 500_000;

    // In ms: two frames of the board, so that the thread wakes soon enough to write when nothing comes.
    private const int ReadWait = 10;

    // Two writes in one call must stay below the host's deadline for a call.
    private const int WriteWait = 240;

    // In bytes: a third of a second of the line at its full rate.
    private const int SystemBuffer = 16_384;

    private readonly SerialPort _port;
    private readonly PortLock _lock;

    private SerialLine(SerialPort port, PortLock taken) => (_port, _lock) = (port, taken);

    /// <summary>Opens a port. Throws <see cref="DeviceException"/> when there is none of the name, or when it is in use or not permitted.</summary>
    public static SerialLine Open(string name)
    {
        if (!OperatingSystem.IsWindows() && !File.Exists(name))
            throw new DeviceException($"there is no serial port {name}; {PortsThereAre()}");
        PortLock taken = PortLock.Take(name);
        SerialPort port = new(name, Baud, Parity.None, 8, StopBits.One)
        {
            ReadTimeout = ReadWait, WriteTimeout = WriteWait, ReadBufferSize = SystemBuffer, Handshake = Handshake.None,
        };
        try
        {
            port.Open();
            return new SerialLine(port, taken);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or InvalidOperationException)
        {
            port.Dispose();
            taken.Dispose();
            throw new DeviceException(WhyNot(name, e), e);
        }
    }

    public int Read(byte[] buffer)
    {
        try
        {
            return _port.Read(buffer, 0, buffer.Length);
        }
        catch (TimeoutException)
        {
            return 0;
        }
    }

    public void Write(byte[] bytes, int count) => _port.Write(bytes, 0, count);

    public void Discard() => _port.DiscardInBuffer();

    public void Dispose()
    {
        _lock.Dispose();
        _port.Dispose();
    }

    private static string WhyNot(string name, Exception e) => e switch
    {
        UnauthorizedAccessException =>
            $"the serial port {name} is in use by another program, or this user may not open it: end the other program, or join the group that owns the port",
        IOException => $"the serial port {name} cannot be opened at {Baud} baud: {e.Message}",
        _ => $"{name} is not a serial port: {e.Message}",
    };

    private static string PortsThereAre()
    {
        string[] names = SerialPort.GetPortNames();
        return names.Length == 0
            ? "no port is there at all: is the board plugged in?"
            : "there are " + string.Join(", ", names.Order(StringComparer.Ordinal));
    }
}
