namespace RigControl.Runtime.Tests.Support;

/// <summary>A device whose every call does what the test says. Without a say it reads 1 on its one channel.</summary>
internal sealed class ToyDevice(params string[] channels) : IDevice
{
    private int _reads;
    private int _applies;

    public Action<TimeSpan, ISampleWriter>? OnRead { get; init; }

    public Action<OutputImage>? OnApply { get; init; }

    public Action? OnDispose { get; init; }

    /// <summary>Called before the device says anything of itself.</summary>
    public Action<string>? OnAsked { get; init; }

    public double Resolution { get; init; } = 0.1;

    public string Unit { get; init; } = "1";

    public IReadOnlyList<ChannelDeclaration> Channels => Asked<IReadOnlyList<ChannelDeclaration>>("channels", [.. channels.Select(Declare)]);

    public DeviceTraits Traits
    {
        get => Asked("traits", field);
        init;
    } = DeviceTraits.NeverBlocks | DeviceTraits.Simulated;

    public TimeSpan ReadPeriod
    {
        get => Asked("period", field);
        init;
    } = TimeSpan.FromMilliseconds(1);

    public IReadOnlyDictionary<string, string> Identity => Asked("identity", Facts);

    /// <summary>What it says of itself.</summary>
    public Dictionary<string, string> Facts { get; init; } = [];

    public int Reads => Volatile.Read(ref _reads);

    public int Applies => Volatile.Read(ref _applies);

    /// <summary>The outputs it was told last.</summary>
    public OutputImage Told { get; private set; }

    public bool Disposed { get; private set; }

    public void Read(TimeSpan now, ISampleWriter writer)
    {
        Interlocked.Increment(ref _reads);
        if (OnRead is not null)
            OnRead(now, writer);
        else
            writer.Write(0, now, 1);
    }

    public void Apply(TimeSpan now, in OutputImage outputs)
    {
        Interlocked.Increment(ref _applies);
        Told = outputs;
        OnApply?.Invoke(outputs);
    }

    public void Dispose()
    {
        Disposed = true;
        OnDispose?.Invoke();
    }

    private T Asked<T>(string what, T answer)
    {
        OnAsked?.Invoke(what);
        return answer;
    }

    private ChannelDeclaration Declare(string name) => new()
    {
        Name = name, Unit = Unit, Minimum = -1000, Maximum = 1000, Resolution = Resolution,
        Period = TimeSpan.FromMilliseconds(5), MaximumAge = TimeSpan.FromSeconds(1),
    };
}

/// <summary>Makes one device, as a plugin that is already in memory.</summary>
internal sealed class ToyDevicePlugin(string kind, Func<DeviceContext, IDevice> open) : IDevicePlugin
{
    public string Kind => kind;

    public string Meaning => "A device of the test.";

    public Type OptionsType => typeof(NoOptions);

    public IDevice Open(object options, DeviceContext context) => open(context);
}

/// <summary>Nothing to choose.</summary>
public sealed class NoOptions;
