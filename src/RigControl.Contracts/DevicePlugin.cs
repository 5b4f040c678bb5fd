using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Contracts;

/// <summary>Makes devices of one kind. Use <see cref="DevicePlugin{TOptions}"/>.</summary>
public interface IDevicePlugin
{
    /// <summary>Kebab-case name that a rig file writes after <c>plugin:</c>.</summary>
    string Kind { get; }

    /// <summary>One sentence for the list of plugins.</summary>
    string Meaning { get; }

    Type OptionsType { get; }

    /// <summary>Opens the device. Throws <see cref="DeviceException"/> with a sentence to act on when it cannot, and <see cref="OptionException"/> when the options are wrong.</summary>
    IDevice Open(object options, DeviceContext context);

    /// <summary>What a device with these options would supply, without opening it; null where that shows only once it is open.</summary>
    IReadOnlyList<ChannelDeclaration>? Foresee(object options, TimeSpan scanPeriod) => null;
}

/// <summary>Makes devices of one kind from options of one type.</summary>
public abstract class DevicePlugin<TOptions> : IDevicePlugin
    where TOptions : class, new()
{
    public abstract string Kind { get; }

    public abstract string Meaning { get; }

    Type IDevicePlugin.OptionsType => typeof(TOptions);

    IDevice IDevicePlugin.Open(object options, DeviceContext context)
    {
        OptionCheck.Require(options);
        return Open((TOptions)options, context);
    }

    IReadOnlyList<ChannelDeclaration>? IDevicePlugin.Foresee(object options, TimeSpan scanPeriod) => Foresee((TOptions)options, scanPeriod);

    /// <inheritdoc cref="IDevicePlugin.Open"/>
    protected abstract IDevice Open(TOptions options, DeviceContext context);

    /// <inheritdoc cref="IDevicePlugin.Foresee"/>
    protected virtual IReadOnlyList<ChannelDeclaration>? Foresee(TOptions options, TimeSpan scanPeriod) => null;
}

/// <summary>What a device is told when it is opened.</summary>
public sealed record DeviceContext
{
    /// <summary>Id of the device in the rig file.</summary>
    public required string Id { get; init; }

    public required Article Article { get; init; }

    /// <summary>Time between scans.</summary>
    public required TimeSpan ScanPeriod { get; init; }

    /// <summary>Seed of everything random in a simulated device.</summary>
    public required ulong Seed { get; init; }

    /// <summary>Clock for devices with a thread of their own; its timestamps count from the session's start at <see cref="Epoch"/>.</summary>
    public required TimeProvider Time { get; init; }

    /// <summary>Timestamp of <see cref="Time"/> at which the session's clock shows zero.</summary>
    public required long Epoch { get; init; }
}

/// <summary>A device that cannot go on. The message is a sentence that a person can act on.</summary>
public sealed class DeviceException : Exception
{
    public DeviceException(string message) : base(message) { }

    public DeviceException(string message, Exception cause) : base(message, cause) { }
}
