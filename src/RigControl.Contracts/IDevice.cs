using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Contracts;

/// <summary>
/// An instrument or actuator. The host calls one member at a time, always from the same thread. An exception from
/// <see cref="Read"/> or <see cref="Apply"/> takes the device out of service: the rig stops or refuses to arm.
/// </summary>
public interface IDevice : IDisposable
{
    /// <summary>What the device supplies; the place in the list is the number under which it writes samples. May not change.</summary>
    IReadOnlyList<ChannelDeclaration> Channels { get; }

    DeviceTraits Traits { get; }

    /// <summary>Time between two calls of <see cref="Read"/> when the device has a thread of its own.</summary>
    TimeSpan ReadPeriod { get; }

    /// <summary>What identifies this very device: firmware version, serial number, boot nonce. Goes into every run's provenance.</summary>
    IReadOnlyDictionary<string, string> Identity { get; }

    /// <summary>Writes what has been read since the last call. Must return within <see cref="DeviceLimits.CallDeadline"/>.</summary>
    /// <param name="now">Host time; no sample may be stamped later.</param>
    /// <param name="writer">Takes the samples, in the channel's unit, at most <see cref="DeviceLimits.SamplesPerRead"/> a call.</param>
    void Read(TimeSpan now, ISampleWriter writer);

    /// <summary>Takes the outputs of a scan. Called at least once a scan period; an actuator stops by itself when it is not.</summary>
    void Apply(TimeSpan now, in OutputImage outputs);
}

/// <summary>Takes a device's samples.</summary>
public interface ISampleWriter
{
    /// <param name="channel">Place in <see cref="IDevice.Channels"/>.</param>
    /// <param name="at">Host time of the reading.</param>
    /// <param name="value">In the channel's unit.</param>
    /// <param name="quality">Good unless the device knows better.</param>
    void Write(int channel, TimeSpan at, double value, Quality quality = Quality.Good);
}

/// <summary>What kind of device it is. None of them is the cautious value: it may block and is real.</summary>
[Flags]
public enum DeviceTraits
{
    None = 0,

    /// <summary>Read and Apply never wait, so that the device can run in lock-step on a virtual clock.</summary>
    NeverBlocks = 1,

    /// <summary>Nothing real behind it. Only when every device of a rig says so is the run simulated.</summary>
    Simulated = 2,

    /// <summary>It drives the output.</summary>
    DrivesOutput = 4,

    /// <summary>Its output keeps its last value when the host dies. Refused at start-up where it drives the output.</summary>
    HoldsLastOutput = 8,

    /// <summary>Asked for a pulse of 0 us it puts out no pulses and leaves the power as it is; without this trait the host does not ask for that under power.</summary>
    CeasesPulses = 16,
}

/// <summary>Bounds that the host holds every device to.</summary>
public static class DeviceLimits
{
    /// <summary>Longest time a call may take before the device counts as hung: longer than any transfer with its retries, shorter than anybody waits at a bench.</summary>
    public static readonly TimeSpan CallDeadline = TimeSpan.FromMilliseconds(500);

    /// <summary>Longest time that opening a device may take before it is left behind: nothing is energised yet, and a board that starts anew needs seconds.</summary>
    public static readonly TimeSpan OpenDeadline = TimeSpan.FromSeconds(30);

    /// <summary>Most samples one call of Read may write before the device counts as flooding: more than any sensor gives within one period.</summary>
    public const int SamplesPerRead = 4096;
}
