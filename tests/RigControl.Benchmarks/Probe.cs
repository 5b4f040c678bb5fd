using System.Diagnostics;
using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Benchmarks;

/// <summary>A device that numbers its samples, and notes when it read each and when it was told the outputs that knew it.</summary>
internal sealed class Probe(DeviceContext context, int most) : IDevice
{
    private readonly long[] _readAt = new long[most];
    private readonly List<double> _taken = new(most);
    private long _folded;
    private int _read;
    private int _answered;

    public IReadOnlyList<ChannelDeclaration> Channels { get; } =
    [
        new ChannelDeclaration
        {
            Name = "probe", Unit = "1", Minimum = 0, Maximum = 1e9, Resolution = 1, Period = context.ScanPeriod, MaximumAge = TimeSpan.FromSeconds(1),
        },
    ];

    public DeviceTraits Traits => DeviceTraits.Simulated;

    public TimeSpan ReadPeriod => context.ScanPeriod;

    public IReadOnlyDictionary<string, string> Identity { get; } = new Dictionary<string, string>();

    /// <summary>Milliseconds from each sample to the outputs that knew it.</summary>
    public double[] Taken => [.. _taken];

    /// <summary>
    /// Called by the scan, a few microseconds before its outputs are out: that many samples are folded. Outputs of the scan before
    /// that are told within those microseconds count too early by them.
    /// </summary>
    public void Knows(long samples) => Volatile.Write(ref _folded, samples);

    public void Read(TimeSpan now, ISampleWriter writer)
    {
        if (_read == most)
            return;
        _readAt[_read++] = Stopwatch.GetTimestamp();
        writer.Write(0, now, _read);
    }

    public void Apply(TimeSpan now, in OutputImage outputs)
    {
        long at = Stopwatch.GetTimestamp();
        for (long folded = Volatile.Read(ref _folded); _answered < folded; _answered++)
            _taken.Add(Stopwatch.GetElapsedTime(_readAt[_answered], at).TotalMilliseconds);
    }

    public void Dispose()
    {
        // Nothing is held.
    }
}

/// <summary>Makes a probe.</summary>
internal sealed class ProbePlugin(Func<DeviceContext, Probe> open) : IDevicePlugin
{
    public string Kind => "probe";

    public string Meaning => "Notes how long an answer takes.";

    public Type OptionsType => typeof(NoOptions);

    public IDevice Open(object options, DeviceContext context) => open(context);

    internal sealed class NoOptions;
}
