using RigControl.Contracts;
using RigControl.Kernel;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Devices;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Rigs;

/// <summary>Puts a rig together: opens its devices, gives channels their places, makes the interlocks, compiles the procedure.</summary>
public sealed class RigAssembler(PluginCatalog catalog, TimeProvider time)
{
    /// <param name="documents">Read and checked.</param>
    /// <param name="seed">Of everything random in simulated devices.</param>
    /// <exception cref="AssemblyException">Every reason at once; all devices opened so far are closed again.</exception>
    public AssembledRig Assemble(RigDocuments documents, ulong seed)
    {
        List<OpenDevice> open = [];
        long epoch = time.GetTimestamp();
        try
        {
            OpenAll(documents, seed, epoch, open);
            return PutTogether(documents, open, new SessionClock(time, epoch));
        }
        catch (ConfigurationException e)
        {
            Close(open);
            throw new AssemblyException(e.Reasons, isDevice: false);
        }
        catch
        {
            Close(open);
            throw;
        }
    }

    /// <summary>Makes the interlocks of a rig for channels that no device has been opened for.</summary>
    /// <returns>Those that can be made, and a sentence for each that cannot.</returns>
    public (IReadOnlyList<BoundInterlock> Interlocks, IReadOnlyList<string> Reasons) Bind(RigDocuments documents, IReadOnlyList<Channel> channels)
    {
        InterlockBinder binder = new(catalog, documents.Article, channels, documents.Rehearsed);
        IReadOnlyList<BoundInterlock> interlocks = binder.BindAll(documents.Rig.Interlocks);
        return (interlocks, binder.Reasons);
    }

    private void OpenAll(RigDocuments documents, ulong seed, long epoch, List<OpenDevice> open)
    {
        List<string> reasons = [];
        bool misfit = false;
        foreach (DeviceDefinition definition in documents.Rig.Devices.OrderBy(d => d.Id, StringComparer.Ordinal))
        {
            DeviceContext context = new()
            {
                Id = definition.Id, Article = documents.Article, ScanPeriod = documents.Rig.ScanPeriod, Seed = seed, Time = time, Epoch = epoch,
            };
            try
            {
                if (!catalog.Devices.TryGetValue(definition.Plugin, out IDevicePlugin? plugin))
                    throw new DeviceException($"no installed plugin makes {definition.Plugin}");
                object options = OptionsReader.Fill(plugin.OptionsType, definition.Options);
                open.Add(new OpenDevice(definition, Patience.Of(DeviceLimits.OpenDeadline, () => plugin.Open(options, context))));
            }
#pragma warning disable CA1031 // Whatever goes wrong inside a plugin is its own fault and is reported under its name.
            catch (Exception e)
#pragma warning restore CA1031
            {
                reasons.Add($"device {definition.Id} does not open: {e.Message}");
                // Options that do not fit are a mistake in the file, not a device that failed.
                misfit |= e is OptionException;
            }
        }

        reasons.AddRange(open.Where(d => Ask(d, HoldsOutput)).Select(d =>
            $"device {d.Definition.Id} would hold its last output if this program died; it may not drive an output"));
        if (reasons.Count > 0)
            throw new AssemblyException(reasons, isDevice: !misfit);
    }

    private AssembledRig PutTogether(RigDocuments documents, List<OpenDevice> open, SessionClock clock)
    {
        List<string> reasons = [];
        List<Channel> channels = [];
        List<HostedDevice> devices = [];
        foreach (OpenDevice device in open)
            devices.Add(Ask(device, d => new HostedDevice(device.Definition.Id, d, Place(device, devices.Count, channels, reasons), time)));
        HostDevice host = new([.. devices]);
        OpenDevice hostAsDevice = new(new DeviceDefinition(HostDevice.Id, HostDevice.Id, Nothing<object>(), Nothing<string>()), host);
        devices.Add(new HostedDevice(HostDevice.Id, host, Place(hostAsDevice, devices.Count, channels, reasons), time));
        if (devices.Count > Capacity.Devices)
            reasons.Add($"there are {devices.Count - 1} devices, but {Capacity.Devices - 1} is the most that one rig can have");

        ScanPost post = new();
        InterlockBinder binder = new(catalog, documents.Article, channels, documents.Rehearsed, post);
        IReadOnlyList<BoundInterlock> interlocks = binder.BindAll(documents.Rig.Interlocks);
        reasons.AddRange(binder.Reasons);
        if (open.Any(HasArmKey) && !InterlockBinder.AskForKey(documents.Rig))
            reasons.Add(RigForecast.KeyLeftAlone);
        if (PowerCuts.StopLeftAlone(documents.Rig, open.SelectMany(NamesOf)) is { } alone)
            reasons.Add(alone);
        if (reasons.Count > 0)
            throw new AssemblyException(reasons, isDevice: false);
        documents = WithVerification(documents, channels, devices);
        Configuration configuration = ConfigurationCompiler.Compile(documents.Rig, documents.Article, documents.Procedure, channels, interlocks, binder.Lower(documents.Rig));
        List<DeviceIdentity> deviceIdentities = [.. open.Append(hostAsDevice).Select(o => Ask(o, d => new DeviceIdentity(
            o.Definition.Id, o.Definition.Plugin, d.Traits.HasFlag(DeviceTraits.Simulated), d.Identity)))];
        return new AssembledRig(documents, configuration, devices, host, binder.Identities, deviceIdentities, PluginsOf(documents.Rig), clock, post);
    }

    // By the device's own name for it: no rig file renames a key away.
    private static bool HasArmKey(OpenDevice device) => Ask(device, d => d.Channels.Any(c => c.Name == ChannelNames.ArmKey));

    private static IEnumerable<(string Own, string Name)> NamesOf(OpenDevice device) =>
        Ask<(string, string)[]>(device, d => [.. d.Channels.Select(c => (c.Name, device.Definition.Channels.GetValueOrDefault(c.Name, c.Name)))]);

    // What the outputs of the rig cannot do, the verification does not ask for.
    private static RigDocuments WithVerification(RigDocuments documents, List<Channel> channels, List<HostedDevice> devices)
    {
        if (documents.Verifies is not { } scope)
            return documents;
        bool ceases = devices.Where(d => d.Traits.HasFlag(DeviceTraits.DrivesOutput)).All(d => d.Traits.HasFlag(DeviceTraits.CeasesPulses));
        VerificationPlan plan = new(scope, ceases);
        return documents with { Procedure = VerificationProcedure.For(documents.Rig, documents.Article, channels, plan), ProcedureText = plan.Text };
    }

    private static List<Channel> Place(OpenDevice device, int place, List<Channel> channels, List<string> reasons)
    {
        List<Channel> own = [];
        foreach (ChannelDeclaration declaration in device.Device.Channels)
        {
            string name = device.Definition.Channels.GetValueOrDefault(declaration.Name, declaration.Name);
            Channel? other = channels.Find(c => c.Name == name);
            if (other is not null)
                reasons.Add($"device {device.Definition.Id} supplies the channel {name}, which another device already supplies; map it to another name under channels:");
            Channel channel = new(channels.Count, name, place, declaration);
            channels.Add(channel);
            own.Add(channel);
        }

        reasons.AddRange(device.Definition.Channels.Keys.Where(k => device.Device.Channels.All(c => c.Name != k)).Select(k =>
            $"device {device.Definition.Id} has no channel {k} to map; it has {string.Join(", ", device.Device.Channels.Select(c => c.Name))}"));
        return own;
    }

    private List<PluginIdentity> PluginsOf(RigDefinition rig) => [.. rig.Devices.Select(d => d.Plugin).Concat(rig.Interlocks.Select(i => i.Plugin))
        .Select(kind => catalog.MakerOf(kind)!.Identity).Distinct().OrderBy(p => p.Assembly, StringComparer.Ordinal)];

    // What a plugin says of itself may fail as well as what it does, and is then reported under its name.
    private static T Ask<T>(OpenDevice open, Func<IDevice, T> question)
    {
        try
        {
            return question(open.Device);
        }
#pragma warning disable CA1031 // As where devices are opened.
        catch (Exception e)
#pragma warning restore CA1031
        {
            throw new AssemblyException([$"device {open.Definition.Id} cannot say what it is: {e.Message}"], isDevice: true);
        }
    }

    private static bool HoldsOutput(IDevice device) =>
        device.Traits.HasFlag(DeviceTraits.DrivesOutput) && device.Traits.HasFlag(DeviceTraits.HoldsLastOutput);

    private static void Close(List<OpenDevice> open)
    {
        foreach (OpenDevice device in open)
        {
            try
            {
                device.Device.Dispose();
            }
#pragma warning disable CA1031 // A device that cannot even be closed must not keep the others open, nor hide why the rig was not put together.
            catch (Exception)
#pragma warning restore CA1031
            {
                // Nothing left to do for it: its outputs stop by themselves.
            }
        }
    }

    private static Dictionary<string, T> Nothing<T>() => [];

    private sealed record OpenDevice(DeviceDefinition Definition, IDevice Device);
}
