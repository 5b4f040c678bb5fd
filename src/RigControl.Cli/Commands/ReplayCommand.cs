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
        Command command = new("replay", "Feeds a recorded run through the kernel again and compares bit for bit.") { run, logbook, plugins, json };
        command.SetAction(parsed =>
        {
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            string found = RunsCommand.Find(book, parsed.GetValue(run)!);
            PluginCatalog catalog = PluginCatalog.Load(parsed.GetValue(plugins) ?? PluginCatalog.DefaultFolder);
            return Report(ReplayOnce.Run(book, found, catalog), parsed.GetValue(json));
        });
        return command;
    }

    private static int Report(ReplayReport report, bool json)
    {
        foreach (string changed in report.ChangedPlugins)
            Console.Error.WriteLine($"{changed} is not the plugin that the run was made with");
        if (json)
            JsonText.Write(new { run = report.Run, scans = report.Scans, equal = report.Difference is null, difference = report.Difference, scan = report.At });
        else if (report.Difference is null)
            Console.WriteLine($"run {report.Run}: {report.Scans} scans replayed, equal bit for bit");
        else
            Console.WriteLine($"run {report.Run}: after {report.Scans} equal scans, at scan {report.At}: {report.Difference}");
        return report.Difference is null && report.ChangedPlugins.Count == 0 ? ExitCode.Done : ExitCode.Difference;
    }
}
