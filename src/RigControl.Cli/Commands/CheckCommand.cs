using System.CommandLine;
using RigControl.Cli.Loading;
using RigControl.Documents;
using RigControl.Model.Procedures;
using RigControl.Model.Rig;
using RigControl.Runtime.Plugins;

namespace RigControl.Cli.Commands;

/// <summary><c>check</c>: every problem of every file at once, each with its place and what to write instead; then what they cannot give together.</summary>
internal static class CheckCommand
{
    public static Command Build()
    {
        Argument<string[]> files = new("FILE") { Description = "Procedure, rig, article and rules files; given together they are checked against each other.", Arity = ArgumentArity.OneOrMore };
        Option<string?> plugins = CommonOptions.Plugins();
        Command command = new("check", "Validates files: every problem at once as file:line:column: what is wrong; what to write instead. Notes say what the files cannot give.") { files, plugins };
        command.SetAction(parsed => Check(parsed.GetValue(files)!, PluginCatalog.Load(parsed.GetValue(plugins) ?? PluginCatalog.DefaultFolder)));
        return command;
    }

    private static int Check(string[] files, PluginCatalog catalog)
    {
        CheckedFiles found = new();
        List<string> problems = [.. files.SelectMany(f => CheckOne(f, catalog, found))];
        foreach (Reading<Procedure> procedure in found.Procedures)
        {
            problems.AddRange(found.Rigs.SelectMany(r => CrossCheck.Procedure(procedure.Value!, procedure.Places, r)).Select(p => p.ToString()));
            problems.AddRange(OfArticles(procedure, found.Articles));
        }

        problems.ForEach(Console.WriteLine);
        if (problems.Count > 0)
            return ExitCode.BadInput;
        Console.WriteLine(files.Length == 1 ? $"{files[0]} is in order" : $"{files.Length} files are in order");
        foreach (string note in CheckNotes.Of(found, catalog))
            Console.WriteLine($"note: {note}");
        return ExitCode.Done;
    }

    // A folder of files holds articles of many kinds: a procedure has to fit one of them.
    private static IEnumerable<string> OfArticles(Reading<Procedure> procedure, IReadOnlyList<Article> articles)
    {
        IReadOnlyList<Problem>[] each = [.. articles.Select(a => CrossCheck.Procedure(procedure.Value!, procedure.Places, a))];
        return each.Any(p => p.Count == 0) ? [] : each.SelectMany(p => p).Select(p => p.ToString());
    }

    private static IReadOnlyList<string> CheckOne(string file, PluginCatalog catalog, CheckedFiles found)
    {
        if (Text(file, out string text) is { } unreadable)
            return [unreadable];
        return DocumentReader.KindOf(text) switch
        {
            DocumentKind.Procedure => Keep(DocumentReader.ReadProcedure(text, file), p => found.Add(p, AskedFor.InProcedure(text))),
            DocumentKind.Article => Keep(DocumentReader.ReadArticle(text, file), r => found.Articles.Add(r.Value!)),
            DocumentKind.Rig => Keep(RigFile.Read(text, file, catalog), r => found.Rigs.Add(r.Value!)),
            DocumentKind.Rules => Keep(DocumentReader.ReadRules(text, file), r => found.Rules.Add(r.Value!)),
            _ => [.. DocumentReader.Check(text, file, catalog.Kinds).Select(p => p.ToString())],
        };
    }

    private static string? Text(string file, out string text)
    {
        text = "";
        try
        {
            text = file == "-" ? Console.In.ReadToEnd() : File.ReadAllText(file);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            return $"{file}:1:1: the file cannot be read: {e.Message.TrimEnd('.')}; name a file that exists and may be read";
        }
    }

    private static IReadOnlyList<string> Keep<T>(Reading<T> reading, Action<Reading<T>> keep)
        where T : class
    {
        if (reading.Value is not null)
            keep(reading);
        return [.. reading.Problems.Select(p => p.ToString())];
    }
}
