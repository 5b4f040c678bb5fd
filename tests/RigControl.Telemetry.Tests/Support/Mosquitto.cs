using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net.Sockets;

namespace RigControl.Telemetry.Tests.Support;

/// <summary>The distribution's broker, in a process of its own, and its command-line clients as independent readers.</summary>
internal sealed class Mosquitto : IDisposable
{
    private readonly string _configuration;
    private readonly Client _client = new();
    private Process? _broker;

    /// <param name="more">Lines of configuration beside the listener; without any, everybody may do everything.</param>
    public Mosquitto(TemporaryFolder folder, string? more = null)
    {
        Assert.SkipUnless(Installed, "mosquitto and its clients are not installed");
        Port = Ports.Free();
        string user = string.Create(CultureInfo.InvariantCulture, $"listener {Port} 127.0.0.1\nuser root\nlog_type error\nmax_inflight_messages 0\n{more ?? "allow_anonymous true"}\n");
        _configuration = folder.Write("mosquitto.conf", user);
        Start();
    }

    public static bool Installed { get; } = Find("mosquitto") is not null && Find("mosquitto_sub") is not null;

    public int Port { get; }

    /// <summary>The telemetry section of a rig file that publishes to it.</summary>
    public string Section => string.Create(CultureInfo.InvariantCulture, $"{{ site: workshop, broker: 127.0.0.1, port: {Port} }}");

    public void Start()
    {
        _broker = Process.Start(new ProcessStartInfo(Find("mosquitto")!, ["-c", _configuration]) { RedirectStandardError = true })!;
        _broker.ErrorDataReceived += (_, _) => { };
        _broker.BeginErrorReadLine();
        while (!Answers())
            Assert.False(_broker.HasExited, "mosquitto did not start");
    }

    /// <summary>Ends the broker as a power cut would.</summary>
    public void Kill()
    {
        _broker!.Kill();
        _broker.WaitForExit();
    }

    /// <summary>What mosquitto_sub prints of a filter: retain flag, topic and payload.</summary>
    public Heard Subscribe(string filter, params string[] more) => _client.Subscribe(Port, filter, more);

    /// <summary>Sends with mosquitto_pub; returns its exit code.</summary>
    public int Publish(string topic, string payload, params string[] more)
    {
        using Process process = Process.Start(new ProcessStartInfo(Find("mosquitto_pub")!, ["-V", "5", "-h", "127.0.0.1", "-p", Text(Port), "-q", "1", "-t", topic, "-m", payload, .. more])
        {
            RedirectStandardError = true, RedirectStandardOutput = true,
        })!;
        process.WaitForExit();
        return process.ExitCode;
    }

    public void Dispose()
    {
        _client.Dispose();
        End(_broker!);
    }

    private static void End(Process process)
    {
        if (!process.HasExited)
            process.Kill();
        process.WaitForExit();
        process.Dispose();
    }

    private bool Answers()
    {
        try
        {
            using TcpClient probe = new("127.0.0.1", Port);
            return true;
        }
        catch (SocketException)
        {
            Thread.Yield();
            return false;
        }
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string? Find(string name) => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Append("/usr/sbin")
        .Select(folder => Path.Combine(folder, name)).FirstOrDefault(File.Exists);

    /// <summary>The distribution's command-line readers, at whatever broker.</summary>
    internal sealed class Client : IDisposable
    {
        private readonly List<Process> _readers = [];

        public Heard Subscribe(int port, string filter, params string[] more)
        {
            ProcessStartInfo start = new(Find("mosquitto_sub")!, ["-V", "5", "-h", "127.0.0.1", "-p", Text(port), "-q", "1", "-t", filter, "-F", "%r %t %p", .. more])
            {
                RedirectStandardOutput = true, RedirectStandardError = true,
            };
            Process process = Process.Start(start)!;
            _readers.Add(process);
            return new Heard(process);
        }

        public void Dispose() => _readers.ForEach(End);
    }

    /// <summary>Lines of a subscriber, in order.</summary>
    internal sealed class Heard
    {
        private readonly ConcurrentQueue<(bool Retained, string Topic, string Payload)> _messages = new();

        public Heard(Process process)
        {
            process.OutputDataReceived += (_, args) =>
            {
                if (args.Data?.Split(' ', 3) is [var retained, var topic, var payload])
                    _messages.Enqueue((retained == "1", topic, payload));
            };
            process.BeginOutputReadLine();
            process.BeginErrorReadLine();
        }

        public IReadOnlyCollection<(bool Retained, string Topic, string Payload)> Messages => _messages;

        public IEnumerable<string> Of(string topic) => _messages.Where(m => m.Topic == topic).Select(m => m.Payload);
    }
}
