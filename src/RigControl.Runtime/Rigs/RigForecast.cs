using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Plugins;

namespace RigControl.Runtime.Rigs;

/// <summary>What a rig would supply, told without opening anything.</summary>
public static class RigForecast
{
    /// <summary>What is said of a rig with an arm key where no interlock asks for it.</summary>
    public const string KeyLeftAlone =
        $"the rig has an arm key, and nothing asks for it before it is armed; add an interlock `plugin: {InterlockBinder.AsksForKey}` that counts in every step";

    /// <summary>Names of all channels by the rig's own names; null where a device does not say before it is open.</summary>
    public static IReadOnlyList<string>? Channels(RigDefinition rig, PluginCatalog catalog)
    {
        List<string> names = [];
        foreach (DeviceDefinition device in rig.Devices)
        {
            if (Of(device, rig.ScanPeriod, catalog) is not { } supplied)
                return null;
            names.AddRange(supplied.Select(c => device.Channels.GetValueOrDefault(c.Name, c.Name)));
        }

        return names;
    }

    /// <summary>Whether a device has an arm key for which no interlock asks in every step: such a rig is refused once it is open.</summary>
    public static bool LeavesKeyAlone(RigDefinition rig, PluginCatalog catalog) =>
        !InterlockBinder.AskForKey(rig) && rig.Devices.Any(d => Of(d, rig.ScanPeriod, catalog)?.Any(c => c.Name == ChannelNames.ArmKey) == true);

    /// <summary>What is said of a stop circuit on which nothing stops, as far as the devices say what they supply; null for nothing.</summary>
    public static string? StopLeftAlone(RigDefinition rig, PluginCatalog catalog) => PowerCuts.StopLeftAlone(rig, rig.Devices.SelectMany(d =>
        (Of(d, rig.ScanPeriod, catalog) ?? []).Select(c => (c.Name, d.Channels.GetValueOrDefault(c.Name, c.Name)))));

    private static IReadOnlyList<ChannelDeclaration>? Of(DeviceDefinition device, TimeSpan scanPeriod, PluginCatalog catalog)
    {
        if (!catalog.Devices.TryGetValue(device.Plugin, out IDevicePlugin? plugin))
            return null;
        try
        {
            return plugin.Foresee(OptionsReader.Fill(plugin.OptionsType, device.Options), scanPeriod);
        }
#pragma warning disable CA1031 // A plugin that fails here only keeps a note from being made.
        catch (Exception)
#pragma warning restore CA1031
        {
            return null;
        }
    }
}
