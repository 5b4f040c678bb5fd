using RigControl.Model.Records;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Publishing;

namespace RigControl.Telemetry.Tests.Support;

/// <summary>A toy rig that is published, with everything around it, quick enough for a test.</summary>
internal sealed class Published : IDisposable
{
    private bool _ended;

    public Published(string stateRoot, BrokerAddress? broker = null, int embeddedPort = 0, string? users = null, LinkTimes? times = null, RunHeader? header = null, string rig = "toy-box")
    {
        Header = header ?? Toy.Header();
        Topics = new Topics("workshop", rig);
        Telemetry = RigTelemetry.Start(
            new TelemetrySettings
            {
                Site = "workshop", Rig = rig, Broker = broker, EmbeddedPort = embeddedPort, Users = users, StateRoot = stateRoot, Times = times ?? Quick,
            },
            Header, TimeSpan.FromMilliseconds(5), Notes.Enqueue);
        Toy = new Toy(Telemetry, Header.Channels.Count);
        Port.OnStop = id => Toy.Answer(new Receipt(id, CommandKind.Stop, CommandSource.Network, RefusalReason.None));
    }

    /// <summary>Times of a test: tries again soon, and believes a silent broker dead before long.</summary>
    public static LinkTimes Quick { get; } = new()
    {
        Heartbeat = TimeSpan.FromMilliseconds(100), Acknowledgement = TimeSpan.FromSeconds(1), FirstRetry = TimeSpan.FromMilliseconds(20), LongestRetry = TimeSpan.FromMilliseconds(100),
        Farewell = TimeSpan.FromSeconds(5),
    };

    public Topics Topics { get; }

    public RunHeader Header { get; }

    public RigTelemetry Telemetry { get; }

    public Toy Toy { get; }

    public ToyPort Port { get; } = new();

    /// <summary>What was said while no run took notes.</summary>
    public System.Collections.Concurrent.ConcurrentQueue<string> Notes { get; } = new();

    /// <summary>Notes of the run so far.</summary>
    public IEnumerable<string> Noted => Port.Told.Where(t => t.Name == EventNames.TelemetryNote).Select(t => t.Text);

    public Published Attached()
    {
        Telemetry.Attach(Port);
        return this;
    }

    public void End()
    {
        if (_ended)
            return;
        _ended = true;
        Telemetry.Dispose();
    }

    public void Dispose() => End();
}
