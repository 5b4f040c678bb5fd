using RigControl.Contracts;
using RigControl.Kernel;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Runtime.Devices;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Rigs;

/// <summary>A rig with its devices open, its channels in their places and its configuration ready for the scan.</summary>
public sealed class AssembledRig : IDisposable
{
    internal AssembledRig(
        RigDocuments documents, Configuration configuration, IReadOnlyList<HostedDevice> devices, HostDevice host,
        IReadOnlyList<InterlockIdentity> interlocks, IReadOnlyList<DeviceIdentity> identities, IReadOnlyList<PluginIdentity> plugins,
        SessionClock clock, ScanPost post)
    {
        (Clock, Post) = (clock, post);
        Documents = documents;
        Configuration = configuration;
        Devices = devices;
        Host = host;
        InterlockIdentities = interlocks;
        DeviceIdentities = identities;
        PluginIdentities = plugins;
        // A simulated bench is made anew with every session.
        host.LeftAtRest = Simulated;
    }

    public RigDocuments Documents { get; }

    public Configuration Configuration { get; }

    public IReadOnlyList<DeviceIdentity> DeviceIdentities { get; }

    public IReadOnlyList<InterlockIdentity> InterlockIdentities { get; }

    public IReadOnlyList<PluginIdentity> PluginIdentities { get; }

    public IReadOnlyList<Channel> Channels => [.. Configuration.ChannelList];

    /// <summary>Whether nothing real is behind any device.</summary>
    public bool Simulated => DeviceIdentities.All(d => d.Simulated);

    /// <summary>Whether the rig can run on a virtual clock: nothing real behind it, and no device that waits.</summary>
    public bool CanRunInLockStep => Simulated && Devices.All(d => d.Traits.HasFlag(DeviceTraits.NeverBlocks));

    /// <summary>The clock that the devices were opened with.</summary>
    internal SessionClock Clock { get; }

    /// <summary>Where the scan says whom it asks.</summary>
    internal ScanPost Post { get; }

    /// <summary>In order of device id, the host last.</summary>
    internal IReadOnlyList<HostedDevice> Devices { get; }

    internal HostDevice Host { get; }

    /// <summary>Records that the failsafe was confirmed for this session.</summary>
    public void ConfirmFailsafe() => Host.FailsafeConfirmed = true;

    /// <summary>Records that nothing is known that may have left the rotor turning before this session.</summary>
    public void TakeAsAtRest() => Host.LeftAtRest = true;

    public void Dispose()
    {
        foreach (HostedDevice device in Devices)
            device.Dispose();
    }
}
