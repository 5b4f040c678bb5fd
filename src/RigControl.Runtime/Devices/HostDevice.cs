using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Runtime.Devices;

/// <summary>
/// What the host itself knows, as channels like any other, so that interlocks can look at it and a replay sees the same:
/// failsafe confirmation, how the rotor was left, presence of an operator, backlog of the recorder, lateness of the scan, health of the devices.
/// </summary>
internal sealed class HostDevice : IDevice
{
    // Twenty times a second: what the host knows changes at the pace of people and disks.
    private static readonly TimeSpan Period = TimeSpan.FromMilliseconds(50);
    private const int Confirmed = 0;
    private const int Present = 1;
    private const int Backlog = 2;
    private const int Lateness = 3;
    private const int AtRest = 4;
    private const int FirstHealth = 5;

    private readonly IReadOnlyList<HostedDevice> _devices;
    private TimeSpan _next;
    private double _worstLateness;

    public HostDevice(IReadOnlyList<HostedDevice> devices)
    {
        _devices = devices;
        Channels =
        [
            Declare(ChannelNames.FailsafeConfirmed, "1", 1, 1),
            Declare(ChannelNames.OperatorPresent, "1", 1, 1),
            Declare(ChannelNames.RecorderBacklog, "%", 100, 0.1),
            Declare(ChannelNames.ScanLateness, "ms", 1e6, 0.001),
            Declare(ChannelNames.LeftAtRest, "1", 1, 1),
            .. devices.Select(d => Declare(ChannelNames.DeviceHealth(d.Id), "1", 1, 1)),
        ];
    }

    public static string Id => "host";

    public IReadOnlyList<ChannelDeclaration> Channels { get; }

    public DeviceTraits Traits => DeviceTraits.NeverBlocks | DeviceTraits.Simulated;

    public TimeSpan ReadPeriod => Period;

    public IReadOnlyDictionary<string, string> Identity { get; } = new Dictionary<string, string>();

    /// <summary>Whether the failsafe has been confirmed for this session.</summary>
    public bool FailsafeConfirmed { get; set; }

    /// <summary>Whether nothing is known that may have left the rotor turning before this session.</summary>
    public bool LeftAtRest { get; set; }

    /// <summary>Whether somebody can act at the bench.</summary>
    public bool OperatorPresent { get; set; }

    /// <summary>Share of the recorder's queue in use, %.</summary>
    public double RecorderBacklog { get; set; }

    public void NoteLateness(TimeSpan late) => _worstLateness = Math.Max(_worstLateness, late.TotalMilliseconds);

    public void Read(TimeSpan now, ISampleWriter writer)
    {
        if (now < _next)
            return;
        _next = now + Period;
        writer.Write(Confirmed, now, FailsafeConfirmed ? 1 : 0);
        writer.Write(Present, now, OperatorPresent ? 1 : 0);
        writer.Write(Backlog, now, RecorderBacklog);
        writer.Write(Lateness, now, _worstLateness);
        _worstLateness = 0;
        writer.Write(AtRest, now, LeftAtRest ? 1 : 0);
        for (int i = 0; i < _devices.Count; i++)
            writer.Write(FirstHealth + i, now, _devices[i].Lost is null ? 1 : 0);
    }

    public void Apply(TimeSpan now, in OutputImage outputs)
    {
        // The host drives nothing.
    }

    public void Dispose()
    {
        // Nothing is held.
    }

    private static ChannelDeclaration Declare(string name, string unit, double maximum, double resolution) => new()
    {
        Name = name, Unit = unit, Minimum = 0, Maximum = maximum, Resolution = resolution, Period = Period, MaximumAge = Period * 10,
    };
}
