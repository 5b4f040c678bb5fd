using System.Globalization;
using System.Text;
using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Misbehaving;

/// <summary>Options of <c>witness-device</c>: none.</summary>
public sealed class WitnessDeviceOptions;

/// <summary>Makes <c>witness-device</c>.</summary>
public sealed class WitnessDevicePlugin : DevicePlugin<WitnessDeviceOptions>
{
    public override string Kind => "witness-device";

    public override string Meaning => "Says on standard output which sample it has given, so that who reads along knows it when the program is killed.";

    protected override IDevice Open(WitnessDeviceOptions options, DeviceContext context) => new WitnessDevice();
}

/// <summary>
/// Counts its samples. Each is said as a line of the reading's time, in ticks of 100 ns, and its value; and once, that a scan has given
/// outputs, as a line of their time and the word.
/// </summary>
internal sealed class WitnessDevice : IDevice
{
    private static readonly TimeSpan Period = TimeSpan.FromMilliseconds(2);

    private readonly Stream _said = Console.OpenStandardOutput();
    private long _count;
    private bool _scanned;

    public IReadOnlyList<ChannelDeclaration> Channels { get; } =
    [
        new() { Name = "witness", Unit = "1", Minimum = 0, Maximum = 1e9, Resolution = 1, Period = Period, MaximumAge = TimeSpan.FromSeconds(1) },
    ];

    public DeviceTraits Traits => DeviceTraits.Simulated;

    public TimeSpan ReadPeriod => Period;

    public IReadOnlyDictionary<string, string> Identity { get; } = new Dictionary<string, string>();

    public void Read(TimeSpan now, ISampleWriter writer)
    {
        writer.Write(0, now, _count);
        _said.Write(Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{now.Ticks} {_count}\n")));
        _count++;
    }

    public void Apply(TimeSpan now, in OutputImage outputs)
    {
        if (!_scanned)
            _said.Write(Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{now.Ticks} scanned\n")));
        _scanned = true;
    }

    public void Dispose() => _said.Dispose();
}
