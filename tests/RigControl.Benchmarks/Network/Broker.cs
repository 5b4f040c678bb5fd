using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace RigControl.Benchmarks.Network;

/// <summary>The distribution's broker and a reader of everything, each in a process of its own.</summary>
internal sealed class Broker : IDisposable
{
    private readonly Process _broker;
    private readonly List<Process> _readers = [];
    private readonly string _file = Path.GetTempFileName();

    /// <param name="noDelay">Whether it sends small packets at once; as it comes, it waits up to 40 ms for an acknowledgement of the one before.</param>
    public Broker(bool noDelay = false)
    {
        Port = FreePort();
        File.WriteAllText(_file, string.Create(CultureInfo.InvariantCulture, $"listener {Port} 127.0.0.1\nallow_anonymous true\nlog_type error\nset_tcp_nodelay {(noDelay ? "true" : "false")}\n"));
        string program = File.Exists("/usr/sbin/mosquitto") ? "/usr/sbin/mosquitto" : "mosquitto";
        _broker = Process.Start(new ProcessStartInfo(program, ["-c", _file]) { RedirectStandardError = true })!;
        _broker.BeginErrorReadLine();
        while (!Listens(Port))
            Thread.Sleep(20);
    }

    public int Port { get; }

    /// <summary>Reads everything with the distribution's client; the count rises with every message.</summary>
    public static Func<long> Read(int port, List<Process> readers)
    {
        Process reader = Process.Start(new ProcessStartInfo("mosquitto_sub", ["-V", "5", "-h", "127.0.0.1", "-p", port.ToString(CultureInfo.InvariantCulture), "-t", "rigcontrol/#", "-F", "%t"])
        {
            RedirectStandardOutput = true,
        })!;
        long count = 0;
        reader.OutputDataReceived += (_, args) => Interlocked.Add(ref count, args.Data is null ? 0 : 1);
        reader.BeginOutputReadLine();
        readers.Add(reader);
        return () => Interlocked.Read(ref count);
    }

    public Func<long> Read() => Read(Port, _readers);

    /// <summary>Ends it as a power cut would.</summary>
    public void Kill() => _broker.Kill();

    /// <summary>Lets it accept, through the system, and never read.</summary>
    public void Freeze() => Process.Start("kill", ["-STOP", _broker.Id.ToString(CultureInfo.InvariantCulture)]).WaitForExit();

    public void Dispose()
    {
        foreach (Process process in _readers.Append(_broker))
        {
            if (!process.HasExited)
                process.Kill();
            process.WaitForExit();
            process.Dispose();
        }

        File.Delete(_file);
    }

    /// <summary>A port that nobody listens at just now.</summary>
    public static int FreePort()
    {
        using Socket socket = new(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
        socket.Bind(new IPEndPoint(IPAddress.Loopback, 0));
        return ((IPEndPoint)socket.LocalEndPoint!).Port;
    }

    public static bool Listens(int port)
    {
        try
        {
            using TcpClient probe = new("127.0.0.1", port);
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }
}
