using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Telemetry.Tests.Support;

/// <summary>A rig that exists only as its record: scans are made by hand and shown to a sink.</summary>
internal sealed class Toy(IRunSink sink, int channels = 3, double period = 0.005)
{
    private readonly Lock _lock = new();
    private ScanRecord _record;
    private InputImage _image;

    public TimeSpan Now { get; private set; }

    public long Scan => _record.Scan;

    public static RunHeader Header(int channels = 3, string run = "toyrun", string rig = "toy-box") => new()
    {
        Run = run, StartedAt = new DateTimeOffset(2026, 3, 1, 10, 0, 0, TimeSpan.Zero), Simulated = true, Seed = 1, Operator = "nobody", Software = "0.0.0",
        Procedure = new DocumentCopy("nothing", "procedure: nothing"), Rig = new DocumentCopy(rig, $"rig: {rig}"), Article = new DocumentCopy("disc-180", "article: disc-180"),
        Plugins = [new PluginIdentity("Toy", "1.0", "00")], Devices = [],
        Interlocks = [new InterlockIdentity("lid-closed", "lid-closed", new Dictionary<string, string>()), new InterlockIdentity("over-speed", "over-speed", new Dictionary<string, string>())],
        Channels = [.. Enumerable.Range(0, channels).Select(i => new Channel(i, i == 0 ? "rotor.speed" : $"channel-{i}", 0, new ChannelDeclaration
        {
            Name = $"channel-{i}", Unit = i == 0 ? "rpm" : "degC", Minimum = -100, Maximum = 30_000, Resolution = 0.1, Period = TimeSpan.FromMilliseconds(1), MaximumAge = TimeSpan.FromSeconds(1),
        }))],
    };

    /// <summary>One scan in a state, with a value in every channel.</summary>
    public void Tick(RigState state = RigState.Idle, double value = 1, uint latched = 0, TripCause causes = TripCause.None, Quality quality = Quality.Good)
    {
        lock (_lock)
            Scanned(state, value, latched, causes, quality, null);
    }

    /// <summary>A scan like the one before, which answers a command. Any thread may call it, as commands come from any.</summary>
    public void Answer(Receipt receipt)
    {
        lock (_lock)
            Scanned(_record.State, 1, _record.Latched, _record.Causes, Quality.Good, receipt);
    }

    private void Scanned(RigState state, double value, uint latched, TripCause causes, Quality quality, Receipt? receipt)
    {
        Now += TimeSpan.FromSeconds(period);
        _record.Scan++;
        _record.Now = Now;
        (_record.Before, _record.State, _record.Latched, _record.Causes, _record.InterlockCount) = (_record.State, state, latched, causes, 2);
        _record.Demands[0] = Demand.Proceed(0, 1, 1, 1, Now);
        _record.Demands[1] = Demand.Proceed(0, value, 100, 0.25, Now);
        _record.ReceiptCount = (byte)(receipt is null ? 0 : 1);
        _record.Receipts[0] = receipt ?? default;
        for (int i = 0; i < channels; i++)
            _image[i] = new ImageEntry { Last = value, Minimum = value, Maximum = value, Count = 1, Quality = quality, Cause = BadCause.None };
        sink.See(_record, _image);
    }

    public void Ticks(int count, double value = 1)
    {
        for (int i = 0; i < count; i++)
            Tick(value: value);
    }

    /// <summary>A trip as the scan tells it, before the scan itself is seen.</summary>
    public void Trip(string id = "lid-closed", string reason = "the lid opened") => sink.Hear(new RigEvent(
        Now, _record.Scan + 1, EventNames.Trip, id, reason, new Dictionary<string, object> { ["channel"] = "enclosure.lid", ["at"] = Now.TotalSeconds, ["reaction"] = 0.004 }));

    public void Say(string text, string name = EventNames.StateEntered) =>
        sink.Hear(new RigEvent(Now, _record.Scan, name, "toy", text, new Dictionary<string, object> { ["number"] = 1.5, ["lost"] = double.NaN, ["count"] = 3L }));
}
