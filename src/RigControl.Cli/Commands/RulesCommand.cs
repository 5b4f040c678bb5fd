using System.CommandLine;
using RigControl.Analysis.Rules;
using RigControl.Cli.Judging;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Documents;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>rules</c>: a run held against the limits that a builder copied from the rules of an event.</summary>
internal static class RulesCommand
{
    public static Command Build()
    {
        Argument<string> file = new("FILE") { Description = "Rules file with the limits, each with its source and date." };
        (Argument<string> run, Option<string?> logbook, Option<bool> json) = (RunsCommand.RunArgument(), CommonOptions.Logbook(), CommonOptions.Json());
        Command command = new("rules", "Says per limit whether a run keeps to it: inside, outside or too close to call. Exit code 6 where something is outside.") { file, run, logbook, json };
        command.SetAction(parsed =>
        {
            EventRules rules = Read(parsed.GetValue(file)!);
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            RunHeader header = book.Header(RunsCommand.Find(book, parsed.GetValue(run)!));
            IReadOnlyList<JudgedRule> judged = RuleJudge.Of(rules, [.. book.Figures(header.Run)]);
            if (parsed.GetValue(json))
                JsonText.Write(RulesDocument.Of(rules, header, judged));
            else
                RulesDocument.Print(rules, header, judged);
            return judged.Any(j => j.Found?.Verdict == RuleVerdict.Outside) ? ExitCode.Difference : ExitCode.Done;
        });
        return command;
    }

    private static EventRules Read(string file)
    {
        Reading<EventRules> reading = DocumentReader.ReadRules(AdoptCommand.ReadFile(file), file);
        return reading.Value ?? throw new CliException(ExitCode.BadInput, [.. reading.Problems.Select(p => p.ToString())]);
    }
}
