using System.Device.I2c;

namespace RigControl.Contracts.Buses;

/// <summary>The real buses. Each is opened with its first chip and closed with its last.</summary>
public sealed class SystemBuses : IBuses
{
    /// <summary>Longest time a transfer may take before the bus counts as stuck: long for I2C, short against the deadline of a device's call.</summary>
    public static readonly TimeSpan TransferDeadline = TimeSpan.FromMilliseconds(100);

    /// <summary>The buses that every device of this assembly's load context shares.</summary>
    public static readonly SystemBuses Shared = new(OpenBus, () => TransferDeadline);

    private readonly Lock _lock = new();
    private readonly Dictionary<int, (OwnedBus Bus, HashSet<int> Addresses)> _open = [];
    private readonly Func<int, I2cBus> _openBus;
    private readonly Func<TimeSpan> _deadline;

    internal SystemBuses(Func<int, I2cBus> openBus, Func<TimeSpan> deadline) => (_openBus, _deadline) = (openBus, deadline);

    /// <inheritdoc/>
    public I2cDevice OpenI2c(int bus, int address)
    {
        lock (_lock)
        {
            if (!_open.TryGetValue(bus, out var open))
                _open[bus] = open = (new OwnedBus(bus, _openBus(bus), _deadline), []);
            if (!open.Addresses.Add(address))
                throw new IOException($"address {address} on I2C bus {bus} is already used by another device of this rig");
            try
            {
                return new OwnedI2cDevice(open.Bus, address, () => Release(bus, address));
            }
            catch
            {
                Release(bus, address);
                throw;
            }
        }
    }

    private void Release(int bus, int address)
    {
        lock (_lock)
        {
            (OwnedBus owned, HashSet<int> addresses) = _open[bus];
            addresses.Remove(address);
            if (addresses.Count > 0)
                return;
            _open.Remove(bus);
            owned.Dispose();
        }
    }

    // Looked for before the library tries, which would give an error number instead of a sentence.
    private static I2cBus OpenBus(int bus) => !OperatingSystem.IsLinux() || File.Exists($"/dev/i2c-{bus}")
        ? I2cBus.Create(bus)
        : throw new IOException($"there is no I2C bus {bus} on this machine (/dev/i2c-{bus})");
}
