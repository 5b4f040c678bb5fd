using System.CommandLine;
using System.Globalization;
using RigControl.Analysis.Commissioning;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Runs;
using RigControl.Documents;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using Command = System.CommandLine.Command;

namespace RigControl.Cli.Commands;

/// <summary><c>runs suggest</c>: what a run with the rotor off says about the values that the article and the rig declare.</summary>
internal static class SuggestCommand
{
    private const string Marks = "pulses-per-revolution";

    public static Command Build()
    {
        (Argument<string> run, Option<string?> logbook, Option<bool> json) = (RunsCommand.RunArgument(), CommonOptions.Logbook(), CommonOptions.Json());
        Option<string?> into = new("--into") { Description = "Article file to write the suggestions into; without it they are only shown.", HelpName = "FILE" };
        Option<bool> simulated = new("--even-simulated") { Description = "Writes what a simulated run found too: for trying this out, never for a real machine's file." };
        Command command = new("suggest", "Says what a run with the rotor off tells about the controller's pulses, its arming time and the tachometer's marks.")
        {
            run, logbook, json, into, simulated,
        };
        command.SetAction(parsed =>
        {
            using LogbookFile book = LogbookFile.Open(parsed.GetValue(logbook) ?? Logbooks.DefaultPath);
            RunHeader header = book.Header(RunsCommand.Find(book, parsed.GetValue(run)!));
            Article article = DocumentReader.ReadArticle(header.Article.Text, "recorded article").Value
                ?? throw new CliException(ExitCode.BadInput, "the article recorded with this run can no longer be read");
            string? file = parsed.GetValue(into);
            if (file is not null && header.Simulated && !parsed.GetValue(simulated))
                throw new CliException(ExitCode.BadInput, $"run {header.Run} was simulated: it says nothing of a real controller; choose a real run");
            return Suggest(RotorOff.Of(book, header, article), header, parsed.GetValue(json), file);
        });
        return command;
    }

    private static int Suggest(RotorOffRun run, RunHeader header, bool json, string? into)
    {
        if (run.Article.Rotor is not null)
            throw new CliException(ExitCode.BadInput, $"{header.Article.Name} has a rotor; what a controller does is found with nothing on the shaft, by first-power and controller-range");
        IReadOnlyList<Finding> findings = run.Findings();
        if (json)
            JsonText.Write(new { run = header.Run, simulated = header.Simulated, findings = findings.Select(f => new { key = f.Key, verdict = Word(f.Verdict), write = f.Write, says = f.Says }) });
        else
            Print(findings, header);
        if (into is not null)
            Write(into, [.. findings.Where(f => f is { Verdict: Verdict.Change, Write: not null } && f.Key != Marks)], run.Article, header);
        return ExitCode.Done;
    }

    private static void Print(IReadOnlyList<Finding> findings, RunHeader header)
    {
        Console.WriteLine($"{header.Procedure.Name} of {header.Article.Name}{(header.Simulated ? " (simulated: it says nothing of a real controller)" : "")}");
        int width = findings.Max(f => f.Key.Length);
        foreach (Finding finding in findings)
        {
            Console.WriteLine($"{Word(finding.Verdict),-8} {finding.Key.PadRight(width)}  {finding.Says}");
            if (finding.Write is { } value && finding.Key != Marks)
                Console.WriteLine($"{"",-8} write in the article, under controller:  {finding.Key}: {value}");
        }
    }

    private static void Write(string file, Finding[] changes, Article recorded, RunHeader header)
    {
        if (changes.Length == 0)
        {
            Console.Error.WriteLine($"there is nothing to write into {file}");
            return;
        }

        string history = string.Join(", ", changes.Select(c => $"{c.Key} is now {c.Write}"));
        AdoptCommand.WriteFile(file, ArticleEdit.WithHistory(NewText(file, changes, recorded), header, history));
        Console.Error.WriteLine($"{file}: {history}; run first power again before you believe it");
    }

    private static string NewText(string file, Finding[] changes, Article recorded)
    {
        string text = AdoptCommand.ReadFile(file);
        Reading<Article> now = DocumentReader.ReadArticle(text, file);
        if (now.Value is not { } article)
            throw new CliException(ExitCode.BadInput, [.. now.Problems.Select(p => p.ToString())]);
        if (article.Name != recorded.Name || article.Controller != recorded.Controller)
            throw new CliException(ExitCode.BadInput, $"{file} declares another controller than the run was made with; the findings may not be its own");
        foreach (Finding change in changes)
        {
            text = ArticleEdit.Set(text, "controller", change.Key, change.Write!, out _)
                ?? throw new CliException(ExitCode.BadInput, $"{file} states no {change.Key} under controller:; write {change.Key}: {change.Write} yourself");
        }

        IReadOnlyList<Problem> problems = DocumentReader.ReadArticle(text, file).Problems;
        return problems.Count == 0 ? text : throw new CliException(ExitCode.BadInput, [.. problems.Select(p => p.ToString()), "nothing was written"]);
    }

    private static string Word(Verdict verdict) => verdict switch
    {
        Verdict.Holds => "holds",
        Verdict.Change => "change",
        Verdict.Wrong => "wrong",
        _ => "unknown",
    };
}
