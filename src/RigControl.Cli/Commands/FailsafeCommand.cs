using System.CommandLine;
using RigControl.Cli.Failsafe;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Plugins;

namespace RigControl.Cli.Commands;

/// <summary><c>failsafe</c>: every way to stop, provoked on purpose and seen.</summary>
internal static class FailsafeCommand
{
    public static Command Build()
    {
        (Option<string?> rig, Option<string?> article, Option<string?> logbook, Option<string?> plugins) =
            (CommonOptions.Rig(), CommonOptions.Article(), CommonOptions.Logbook(), CommonOptions.Plugins());
        Option<bool> json = CommonOptions.Json();
        Option<string?> pace = CommonOptions.Pace();
        Option<ulong?> seed = CommonOptions.Seed();
        Option<string?> bench = CommonOptions.Operator();
        Option<double> hours = new("--hours") { Description = $"How many hours the proof is good for, above 0 and at most {ProofJudge.LongestTime.TotalHours:0}.", DefaultValueFactory = _ => ProofJudge.UsualTime.TotalHours, HelpName = "N" };
        Option<bool> rotorRemoved = new("--rotor-removed") { Description = "The rotor is off: you are asked for it, and the enclosure's rating is no objection to turning the motor alone." };
        Command command = new("failsafe", "Verifies the failsafe: provokes every fault in safe stages and looks that the rig stops. Ctrl-C is safe-stop.")
        {
            rig, article, logbook, plugins, json, pace, seed, bench, hours, rotorRemoved,
        };
        command.SetAction(parsed => Verify(
            new RunRequest(
                null, parsed.GetValue(rig), parsed.GetValue(article), parsed.GetValue(logbook), parsed.GetValue(plugins), parsed.GetValue(json),
                CommonOptions.PaceOf(parsed.GetValue(pace)), parsed.GetValue(seed), parsed.GetValue(bench), false, null),
            parsed.GetValue(hours), parsed.GetValue(rotorRemoved)));
        return command;
    }

    private static int Verify(RunRequest request, double hours, bool rotorRemoved)
    {
        if (!(hours > 0 && hours <= ProofJudge.LongestTime.TotalHours))
            throw new CliException(ExitCode.BadInput, $"--hours {hours} is no time for a proof; write a number above 0 and at most {ProofJudge.LongestTime.TotalHours:0}");
        PluginCatalog catalog = PluginCatalog.Load(request.Plugins ?? PluginCatalog.DefaultFolder);
        using LogbookFile book = LogbookFile.Open(request.Logbook ?? Logbooks.DefaultPath);
        ProofShelf shelf = new(book, MachineKey.DefaultPath);
        Verified verified = new VerifyOnce(request, catalog, book, shelf).Run(TimeSpan.FromHours(hours), rotorRemoved: rotorRemoved);
        if (request.Json)
            JsonText.Write(FailsafeDocument.Of(verified));
        else
            FailsafeDocument.Lines(verified).ToList().ForEach(Console.WriteLine);
        return verified.Proof is not null ? ExitCode.Done
            : verified.Result.Outcome == Model.Records.RunOutcome.Failed ? ExitCode.DeviceOrStorage : ExitCode.SafeStop;
    }
}
