using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Misbehaving;

/// <summary>What the device does when its time has come.</summary>
public enum DeviceMischief
{
    Nothing,
    HangsInOpen,
    HangsInRead,
    HangsInApply,
    HangsInDispose,
    Throws,
    Floods,
    LeaksThreads,
    LeaksMemory,
    ChangesChannels,
    WritesFromTheFuture,
    WritesNonsense,
}

/// <summary>Options of <c>misbehaving-device</c>.</summary>
public sealed class MisbehavingDeviceOptions
{
    /// <summary>What it does. Default nothing.</summary>
    [Meaning("What it does.")]
    public DeviceMischief Mischief { get; set; }

    /// <summary>Session time from which it does so, s, 0 to 3600. Default 0.</summary>
    [Quantity("s", 0, 3600), Meaning("Session time from which it does so.")]
    public double From { get; set; }

    /// <summary>Whether it says that it never blocks. Default no.</summary>
    [Meaning("Whether it says that it never blocks.")]
    public bool SaysItNeverBlocks { get; set; }

    /// <summary>Whether it says that something real is behind it. Default no.</summary>
    [Meaning("Whether it says that something real is behind it.")]
    public bool SaysItIsReal { get; set; }
}

/// <summary>Makes <c>misbehaving-device</c>.</summary>
public sealed class MisbehavingDevicePlugin : DevicePlugin<MisbehavingDeviceOptions>
{
    public override string Kind => "misbehaving-device";

    public override string Meaning => "Does what a good device never does.";

    protected override IDevice Open(MisbehavingDeviceOptions options, DeviceContext context)
    {
        if (options.Mischief == DeviceMischief.HangsInOpen)
            Hang.ForEver();
        return new MisbehavingDevice(options);
    }
}

internal sealed class MisbehavingDevice(MisbehavingDeviceOptions options) : IDevice
{
    private readonly List<byte[]> _leaked = [];
    private bool _changed;

    public IReadOnlyList<ChannelDeclaration> Channels => _changed ? [Declare("other")] : [Declare("mischief")];

    public DeviceTraits Traits => (options.SaysItIsReal ? 0 : DeviceTraits.Simulated) | (options.SaysItNeverBlocks ? DeviceTraits.NeverBlocks : 0);

    public TimeSpan ReadPeriod => TimeSpan.FromMilliseconds(5);

    public IReadOnlyDictionary<string, string> Identity { get; } = new Dictionary<string, string>();

    public void Read(TimeSpan now, ISampleWriter writer)
    {
        if (now.TotalSeconds >= options.From)
            Misbehave(now, writer);
        writer.Write(0, now, 1);
    }

    public void Apply(TimeSpan now, in OutputImage outputs)
    {
        if (options.Mischief == DeviceMischief.HangsInApply && now.TotalSeconds >= options.From)
            Hang.ForEver();
    }

    public void Dispose()
    {
        if (options.Mischief == DeviceMischief.HangsInDispose)
            Hang.ForEver();
    }

    private void Misbehave(TimeSpan now, ISampleWriter writer)
    {
        switch (options.Mischief)
        {
            case DeviceMischief.HangsInRead:
                Hang.ForEver();
                break;
            case DeviceMischief.Throws:
                throw new InvalidOperationException("the wire is off");
            case DeviceMischief.Floods:
                for (int i = 0; i <= DeviceLimits.SamplesPerRead; i++)
                    writer.Write(0, now, 1);
                break;
            case DeviceMischief.LeaksThreads:
                new Thread(Hang.ForEver) { IsBackground = true }.Start();
                break;
            case DeviceMischief.LeaksMemory:
                Leak();
                break;
            case DeviceMischief.ChangesChannels:
                _changed = true;
                writer.Write(1, now, 1);
                break;
            case DeviceMischief.WritesFromTheFuture:
                writer.Write(0, now + TimeSpan.FromHours(1), 1);
                break;
            case DeviceMischief.WritesNonsense:
                writer.Write(0, now, double.NaN);
                break;
        }
    }

    // Touched, so that the system has to give it.
    private void Leak()
    {
        byte[] more = new byte[16 << 20];
        Array.Fill(more, (byte)1);
        _leaked.Add(more);
    }

    private static ChannelDeclaration Declare(string name) => new()
    {
        Name = name, Unit = "1", Minimum = 0, Maximum = 10, Resolution = 1, Period = TimeSpan.FromMilliseconds(5), MaximumAge = TimeSpan.FromSeconds(1),
    };
}

internal static class Hang
{
    public static void ForEver() => Thread.Sleep(Timeout.Infinite);
}
