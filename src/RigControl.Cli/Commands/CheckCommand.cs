using System.CommandLine;
using RigControl.Cli.Loading;
using RigControl.Documents;
using RigControl.Model.Rig;
using RigControl.Runtime.Plugins;

namespace RigControl.Cli.Commands;

/// <summary><c>check</c>: every problem of every file at once, each with its place and what to write instead.</summary>
internal static class CheckCommand
{
    public static Command Build()
    {
        Argument<string[]> files = new("FILE") { Description = "Procedure, rig and article files; given together they are checked against each other.", Arity = ArgumentArity.OneOrMore };
        Option<string?> plugins = CommonOptions.Plugins();
        Command command = new("check", "Validates files: every problem at once as file:line:column: what is wrong; what to write instead.") { files, plugins };
        command.SetAction(parsed => Check(parsed.GetValue(files)!, PluginCatalog.Load(parsed.GetValue(plugins) ?? PluginCatalog.DefaultFolder).Kinds));
        return command;
    }

    private static int Check(string[] files, PluginKinds kinds)
    {
        List<string> problems = [];
        List<Reading<Model.Procedures.Procedure>> procedures = [];
        List<Article> articles = [];
        List<RigDefinition> rigs = [];
        foreach (string file in files)
            problems.AddRange(CheckOne(file, kinds, procedures, articles, rigs));
        foreach (Reading<Model.Procedures.Procedure> procedure in procedures)
        {
            problems.AddRange(rigs.SelectMany(r => CrossCheck.Procedure(procedure.Value!, procedure.Places, r)).Select(p => p.ToString()));
            problems.AddRange(articles.SelectMany(a => CrossCheck.Procedure(procedure.Value!, procedure.Places, a)).Select(p => p.ToString()));
        }

        problems.ForEach(Console.WriteLine);
        if (problems.Count > 0)
            return ExitCode.BadInput;
        Console.WriteLine(files.Length == 1 ? $"{files[0]} is in order" : $"{files.Length} files are in order");
        return ExitCode.Done;
    }

    private static IReadOnlyList<string> CheckOne(
        string file, PluginKinds kinds, List<Reading<Model.Procedures.Procedure>> procedures, List<Article> articles, List<RigDefinition> rigs)
    {
        if (Text(file, out string text) is { } unreadable)
            return [unreadable];
        switch (DocumentReader.KindOf(text))
        {
            case DocumentKind.Procedure:
                return Keep(DocumentReader.ReadProcedure(text, file), r => procedures.Add(r));
            case DocumentKind.Article:
                return Keep(DocumentReader.ReadArticle(text, file), r => articles.Add(r.Value!));
            case DocumentKind.Rig:
                return Keep(DocumentReader.ReadRig(text, file, kinds), r => rigs.Add(r.Value!));
            default:
                return [.. DocumentReader.Check(text, file, kinds).Select(p => p.ToString())];
        }
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
            return $"{file}:1:1: the file cannot be read: {e.Message}; name a file that exists and may be read";
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
