using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;
using RigControl.Runtime.Sessions;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Publishing;

namespace RigControl.Benchmarks.Network;

/// <summary>The simulated rig at 1 kHz on the real clock, in safe-stop, published or not, with every scan looked at.</summary>
internal sealed class Scanning : IDisposable
{
    private readonly AssembledRig _rig = SampleRig.Assemble(SampleRig.Documents(rate: 1000));
    private readonly string _folder = Directory.CreateTempSubdirectory("rigcontrol-benchmark-").FullName;
    private readonly RunSession _session;
    private readonly RigTelemetry? _telemetry;
    private readonly Thread _thread;

    /// <param name="broker">Broker's port; null for no telemetry at all, 0 for the embedded broker at <paramref name="embeddedPort"/>.</param>
    /// <param name="see">Looks at every scan, on the scan's thread.</param>
    public Scanning(int? broker, Sight see, int embeddedPort = 0)
    {
        RunHeader header = SampleRig.Header(_rig);
        if (broker is { } port)
        {
            TelemetrySettings settings = new()
            {
                Site = "bench", Rig = "bench", StateRoot = _folder, EmbeddedPort = embeddedPort,
                Broker = port == 0 ? null : new BrokerAddress { Host = "127.0.0.1", Port = port },
            };
            _telemetry = RigTelemetry.Start(settings, header, _rig.Configuration.ScanPeriod, _ => { });
        }

        _session = new RunSession(_rig, new Nowhere(), new Bystander(), Pace.Real, [], null, new Both(see, _telemetry));
        _telemetry?.Attach(_session.Network);
        _thread = new Thread(() => _session.Run());
        _thread.Start();
    }

    /// <summary>Looks at a scan.</summary>
    public delegate void Sight(in ScanRecord record, in InputImage image);

    public IReadOnlyList<Channel> Channels => _rig.Channels;

    public bool IsLinked => _telemetry is { IsLinked: true };

    public CommandInbox Inbox => _session.Inbox;

    public void Dispose()
    {
        _session.Stop();
        _thread.Join();
        _telemetry?.Dispose();
        _session.Dispose();
        _rig.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private sealed class Both(Sight see, RigTelemetry? telemetry) : IRunSink
    {
        public void See(in ScanRecord record, in InputImage image)
        {
            see(record, image);
            telemetry?.See(record, image);
        }

        public void Hear(RigEvent happened) => telemetry?.Hear(happened);
    }

    private sealed class Nowhere : IRunRecorder
    {
        public void Append(RecordChunk chunk) { }

        public void Commit() { }

        public void Finish(RunEnd end, IReadOnlyList<Figure> figures) { }

        public void Dispose() { }
    }

    private sealed class Bystander : IOperator
    {
        public string Name => "nobody";

        public bool HasGivenUp => false;

        public void See(in ScanRecord record, CommandInbox inbox) { }
    }
}
