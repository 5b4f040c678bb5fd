using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Runtime.Devices;

/// <summary>
/// A device in its place in the rig. It calls the plugin and never lets a failure through: a device that throws, floods
/// or hangs is lost, with a sentence that names it, and is not called again.
/// </summary>
internal sealed class HostedDevice(string id, IDevice device, IReadOnlyList<Channel> channels, TimeProvider time) : IDisposable
{
    /// <summary>Longest time that closing may take before the device is left behind; what it drives stops by itself.</summary>
    public static readonly TimeSpan CloseDeadline = TimeSpan.FromSeconds(5);

    private long _callBegan;

    public string Id { get; } = id;

    /// <summary>As a sentence names it.</summary>
    public string Name { get; } = "the device " + id;

    public DeviceTraits Traits { get; } = device.Traits;

    /// <summary>Where a script can lay hands on it; null on every real device.</summary>
    public IHandable? Hands { get; } = device as IHandable;

    public TimeSpan ReadPeriod { get; } = device.ReadPeriod;

    public SampleIntake Intake { get; } = new(channels);

    /// <summary>Whether another thread calls <see cref="LoseIfHung"/>.</summary>
    public bool Watched { get; set; }

    /// <summary>Why the device is out of service, or null while it serves.</summary>
    public string? Lost { get; private set; }

    public void Read(TimeSpan now)
    {
        if (!Begin())
            return;
        try
        {
            Intake.Begin();
            device.Read(now, Intake);
        }
#pragma warning disable CA1031 // Whatever goes wrong inside a plugin is its own fault and is reported under its name.
        catch (Exception e)
#pragma warning restore CA1031
        {
            Lose(e);
        }

        End();
    }

    public void Apply(TimeSpan now, in OutputImage outputs)
    {
        if (!Begin())
            return;
        try
        {
            device.Apply(now, outputs);
        }
#pragma warning disable CA1031 // As above.
        catch (Exception e)
#pragma warning restore CA1031
        {
            Lose(e);
        }

        End();
    }

    /// <summary>Called from another thread: takes a device out of service that has not come back from a call in time.</summary>
    public void LoseIfHung()
    {
        long began = Volatile.Read(ref _callBegan);
        if (Lost is null && began != 0 && time.GetElapsedTime(began) > DeviceLimits.CallDeadline)
            Lost = $"device {Id} has not answered for {DeviceLimits.CallDeadline.TotalMilliseconds:0} ms";
    }

    /// <summary>Takes the device out of service.</summary>
    public void Lose(string reason) => Lost ??= $"device {Id} failed: {reason}";

    public void Dispose()
    {
        try
        {
            Patience.Of(CloseDeadline, () =>
            {
                device.Dispose();
                return true;
            });
        }
#pragma warning disable CA1031 // A device that cannot even be closed must not keep the others open.
        catch (Exception)
#pragma warning restore CA1031
        {
            // Nothing left to do for it: its outputs stop by themselves.
        }
    }

    // The time of a call is watched only where somebody watches it: a device in lock-step has no other thread beside it.
    private bool Begin()
    {
        if (Lost is not null)
            return false;
        if (Watched)
            Volatile.Write(ref _callBegan, time.GetTimestamp());
        return true;
    }

    private void End() => Volatile.Write(ref _callBegan, 0);

    private void Lose(Exception e) => Lose(e is OutOfMemoryException ? "the memory that this program may use is used up" : e.Message);
}
