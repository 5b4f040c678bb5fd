using System.CommandLine;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Runtime.Plugins;

namespace RigControl.Cli.Commands;

/// <summary><c>plugins</c>: what is installed and what it can make.</summary>
internal static class PluginsCommand
{
    public static Command Build()
    {
        Option<string?> folder = CommonOptions.Plugins();
        Option<bool> json = CommonOptions.Json();
        Command command = new("plugins", "Lists the installed plugins: version, contract version, devices and interlocks.") { folder, json };
        command.SetAction(parsed => Show(PluginCatalog.Load(parsed.GetValue(folder) ?? PluginCatalog.DefaultFolder), parsed.GetValue(json)));
        return command;
    }

    private static int Show(PluginCatalog catalog, bool json)
    {
        if (json)
            JsonText.Write(new { plugins = catalog.Plugins.Select(Describe), broken = catalog.Broken });
        else
            Print(catalog);
        foreach (BrokenPlugin broken in catalog.Broken)
            Console.Error.WriteLine($"{broken.Assembly} cannot be used: {broken.Reason}");
        return catalog.Broken.Count == 0 ? ExitCode.Done : ExitCode.BadInput;
    }

    private static object Describe(LoadedPlugin plugin) => new
    {
        assembly = plugin.Identity.Assembly,
        version = plugin.Identity.Version,
        contract = plugin.Contract.ToString(2),
        digest = plugin.Identity.Digest,
        devices = plugin.Devices.Select(d => new { kind = d.Kind, meaning = d.Meaning }),
        interlocks = plugin.Interlocks.Select(i => new { kind = i.Kind, meaning = i.Meaning, requirement = i.Requirement }),
    };

    private static void Print(PluginCatalog catalog)
    {
        foreach (LoadedPlugin plugin in catalog.Plugins)
        {
            Console.WriteLine($"{plugin.Identity.Assembly} {plugin.Identity.Version}, contract {plugin.Contract.ToString(2)}, digest {plugin.Identity.Digest[..12]}");
            foreach (var device in plugin.Devices)
                Console.WriteLine($"  device     {device.Kind,-20} {device.Meaning}");
            foreach (var interlock in plugin.Interlocks)
                Console.WriteLine($"  interlock  {interlock.Kind,-20} {interlock.Meaning}");
        }
    }
}
