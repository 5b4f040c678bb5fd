using System.CommandLine;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Model.Records;
using Command = System.CommandLine.Command;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Commands;

/// <summary><c>replay</c>: the recorded inputs through the scan again, compared bit for bit.</summary>
internal static class ReplayCommand
{
    public static Command Build()
    {
        (Argument<string> run, Option<string?> logbook, Option<string?> plugins) = (RunsCommand.RunArgument(), CommonOptions.Logbook(), CommonOptions.Plugins());
        Option<bool> json = CommonOptions.Json();
        Option<string[]> changed = new("--with") { Description = $"A changed rig, article or procedure file, or the word {ReplayOnce.PluginsOfNow} for those installed now: shows what would have happened with it, and when the two part.", AllowMultipleArgumentsPerToken = true, HelpName = "FILE|plugins" };
        Command command = new("replay", "Feeds a recorded run through the kernel again and compares bit for bit.") { run, changed, logbook, plugins, json };
        command.SetAction(parsed =>
        {
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            string found = RunsCommand.Find(book, parsed.GetValue(run)!);
            PluginCatalog catalog = PluginCatalog.Load(parsed.GetValue(plugins) ?? PluginCatalog.DefaultFolder);
            return Report(ReplayOnce.Run(book, found, catalog, parsed.GetValue(changed) ?? []), parsed.GetValue(json));
        });
        return command;
    }

    private static int Report(ReplayReport report, bool json)
    {
        foreach (string changed in report.ChangedPlugins)
            Console.Error.WriteLine($"{changed} is not the plugin that the run was made with");
        if (report.FromDemands)
            Console.Error.WriteLine($"the interlocks are others now: the sequence is replayed from the demands that were recorded; --with {ReplayOnce.PluginsOfNow} shows what would have happened with those of now");
        if (json)
            JsonText.Write(new { run = report.Run, scans = report.Scans, equal = report.Difference is null, difference = report.Difference, scan = report.At, at = report.Difference is null ? (double?)null : report.Time.TotalSeconds, changedPlugins = report.ChangedPlugins, demands = report.FromDemands ? "recorded" : "evaluated" });
        else if (report.IsChanged)
            Console.WriteLine(report.Difference is null
                ? $"run {report.Run}: nothing that the rig was told would have been otherwise"
                : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"run {report.Run}: the two part at {report.Time.TotalSeconds:0.000} s, scan {report.At}: {report.Difference}"));
        else if (report.Difference is null)
            Console.WriteLine($"run {report.Run}: {report.Scans} scans replayed, {(report.FromDemands ? "the sequence equal under the recorded demands" : "equal bit for bit")}");
        else
            Console.WriteLine($"run {report.Run}: after {report.Scans} equal scans, at scan {report.At}: {report.Difference}");
        return report.Difference is null && report.ChangedPlugins.Count == 0 ? ExitCode.Done : ExitCode.Difference;
    }
}
