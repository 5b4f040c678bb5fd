using RigControl.Model.Rig;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Tests.Support;
using RigControl.Telemetry.Watching;

namespace RigControl.Telemetry.Tests.Watching;

/// <summary>A watcher at a broker: what it sees of rigs that work, trip, end and die.</summary>
public sealed class SiteWatcherTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public async Task A_watcher_that_comes_late_sees_the_rig_as_it_is()
    {
        using Support.Mosquitto broker = new(_folder);
        using Published rig = Start(broker);
        rig.Toy.Trip();
        rig.Toy.Tick(RigState.SafeStop, latched: 1);
        using SiteWatcher watcher = Watch(broker);
        await Until.True(() => Seen(watcher) is { State: "SafeStop", Trips: ["lid-closed"], Status: "online" } seen && seen.Reasons.ContainsKey("lid-closed"), "the tripped rig");
        rig.Toy.Ticks(100);
        await Until.True(() => { rig.Toy.Ticks(30); return Seen(watcher) is { Tightest: "over-speed", Margin: 0.25, IsStale: false, Simulated: true }; }, "live data");
        Assert.Null(watcher.Trouble);
    }

    [Fact]
    public async Task A_rig_that_ends_is_offline_and_one_that_dies_is_lost_and_neither_counts_as_alive()
    {
        using Support.Mosquitto broker = new(_folder);
        using Relay relay = new(broker.Port);
        using Published rig = new Published(_folder.Path, new BrokerAddress { Host = "127.0.0.1", Port = relay.Port }).Attached();
        using SiteWatcher watcher = Watch(broker);
        rig.Toy.Tick();
        await Until.True(() => Seen(watcher) is { Status: "online", State: "Idle" }, "online");
        relay.Close();
        await Until.True(() => Seen(watcher) is { Status: "lost", IsStale: true }, "lost");
        relay.Open();
        await Until.True(() => Seen(watcher) is { Status: "online" }, "online again");
        rig.End();
        await Until.True(() => Seen(watcher) is { Status: "offline", IsStale: true }, "offline");
    }

    [Fact]
    public async Task What_the_broker_has_kept_says_nothing_about_whether_the_rig_lives()
    {
        using Support.Mosquitto broker = new(_folder);
        Assert.Equal(0, broker.Publish("rigcontrol/1/workshop/ghost/heartbeat", "{}", "-r"));
        Assert.Equal(0, broker.Publish("rigcontrol/1/workshop/ghost/data", "{}", "-r"));
        Assert.Equal(0, broker.Publish("rigcontrol/1/workshop/ghost/status", """{"status":"online"}""", "-r"));
        using SiteWatcher watcher = Watch(broker);
        await Until.True(() => Seen(watcher) is { Status: "online" }, "what is kept");
        Assert.Null(Seen(watcher)!.Age);
        Assert.True(Seen(watcher)!.IsStale);
    }

    [Fact]
    public async Task A_watcher_without_a_broker_says_so_and_finds_it_once_it_is_there()
    {
        using Support.Mosquitto broker = new(_folder);
        using Published rig = Start(broker);
        rig.Toy.Tick();
        broker.Kill();
        using SiteWatcher watcher = Watch(broker);
        await Until.True(() => watcher.Trouble?.Contains("nothing listens", StringComparison.Ordinal) == true, "the trouble");
        broker.Start();
        await Until.True(() => watcher.Trouble is null && Seen(watcher) is { State: "Idle" }, "the rig");
    }

    public void Dispose() => _folder.Dispose();

    private Published Start(Support.Mosquitto broker) => new Published(_folder.Path, new BrokerAddress { Host = "127.0.0.1", Port = broker.Port }).Attached();

    private static SiteWatcher Watch(Support.Mosquitto broker) =>
        SiteWatcher.Start(new BrokerAddress { Host = "127.0.0.1", Port = broker.Port }, "workshop", Published.Quick);

    private static RigGlimpse? Seen(SiteWatcher watcher) => watcher.Rigs().SingleOrDefault();
}
