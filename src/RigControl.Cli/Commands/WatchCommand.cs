using System.CommandLine;
using System.Text.RegularExpressions;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Runs;
using RigControl.Cli.Terminal;
using RigControl.Model.Rig;
using RigControl.Runtime.Plugins;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Watching;

namespace RigControl.Cli.Commands;

/// <summary><c>watch</c>: the rigs of a site, live, from what they publish.</summary>
internal static partial class WatchCommand
{
    // What the broker keeps comes at once; what is alive speaks within a second.
    private static readonly TimeSpan OnceAfter = TimeSpan.FromSeconds(2);

    public static Command Build()
    {
        Option<string?> rig = new("--rig") { Description = "Rig file whose telemetry section names broker and site. Default: a broker on this machine.", HelpName = "FILE" };
        Option<string?> site = new("--site") { Description = "Site to watch. Default: that of the rig file, else local.", HelpName = "SITE" };
        Option<string?> broker = new("--broker") { Description = "Host of the broker, or host:port. Default: that of the rig file, else this machine.", HelpName = "HOST" };
        Option<string?> plugins = CommonOptions.Plugins();
        Option<bool> once = new("--once") { Description = "Look for two seconds, print what is there and end." };
        Option<bool> json = CommonOptions.Json();
        Command command = new("watch", "Shows the rigs of a site live: state, tightest interlock, trips, age of the link.") { rig, site, broker, plugins, once, json };
        command.SetAction((parsed, cancelled) => Task.FromResult(Run(
            Wanted(parsed.GetValue(rig), parsed.GetValue(plugins)), parsed.GetValue(site), parsed.GetValue(broker), Publishing.FolderOf(parsed.GetValue(rig)),
            parsed.GetValue(once) || parsed.GetValue(json), parsed.GetValue(json), cancelled)));
        return command;
    }

    private static TelemetryDefinition Wanted(string? rig, string? plugins)
    {
        if (rig is null)
            return new TelemetryDefinition();
        PluginCatalog catalog = PluginCatalog.Load(plugins ?? PluginCatalog.DefaultFolder);
        return new DocumentLoader(catalog).Rig(rig).Telemetry
            ?? throw new CliException(ExitCode.BadInput, $"{rig} has no telemetry section; write one, or name the broker with --broker");
    }

    private static int Run(TelemetryDefinition wanted, string? site, string? broker, string folder, bool once, bool json, CancellationToken cancelled)
    {
        using SiteWatcher watcher = SiteWatcher.Start(Address(broker is null ? wanted : WithBroker(wanted, broker), folder), Site(site ?? wanted.Site));
        if (once)
            return Once(watcher, json, cancelled);
        if (LiveView.CanDraw)
            SiteView.Draw(watcher, site ?? wanted.Site, cancelled);
        else
            SiteView.Print(watcher, cancelled);
        return ExitCode.Done;
    }

    private static int Once(SiteWatcher watcher, bool json, CancellationToken cancelled)
    {
        cancelled.WaitHandle.WaitOne(OnceAfter);
        if (watcher.Trouble is { } trouble)
            throw new CliException(ExitCode.DeviceOrStorage, trouble);
        if (json)
            JsonText.Write(new { rigs = watcher.Rigs().Select(SiteLines.Document) });
        else
            SiteLines.Of(watcher.Rigs()).ToList().ForEach(Console.WriteLine);
        return ExitCode.Done;
    }

    private static BrokerAddress Address(TelemetryDefinition wanted, string folder)
    {
        try
        {
            return Publishing.BrokerOf(wanted with { Broker = wanted.Broker ?? "localhost" }, folder)!;
        }
        catch (LinkException e)
        {
            throw new CliException(ExitCode.BadInput, e.Message);
        }
    }

    private static TelemetryDefinition WithBroker(TelemetryDefinition wanted, string broker)
    {
        string[] parts = broker.Split(':');
        if (parts.Length == 1)
            return wanted with { Broker = parts[0] };
        return parts.Length == 2 && int.TryParse(parts[1], out int port) && port is > 0 and <= 65535
            ? wanted with { Broker = parts[0], Port = port }
            : throw new CliException(ExitCode.BadInput, $"--broker {broker} is no broker; write its host, or host and port as host:1883");
    }

    private static string Site(string site) => SitePattern().IsMatch(site) ? site
        : throw new CliException(ExitCode.BadInput, $"--site {site} is no site; write a name of a-z, 0-9 and -");

    [GeneratedRegex(@"^[a-z0-9-]{1,64}\z")]
    private static partial Regex SitePattern();
}
