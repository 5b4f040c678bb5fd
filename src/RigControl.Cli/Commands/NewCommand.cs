using System.CommandLine;
using RigControl.Cli.Asking;
using RigControl.Cli.Loading;
using RigControl.Cli.Terminal;
using RigControl.Documents;
using RigControl.Model.Rig;
using RigControl.Runtime.Plugins;

namespace RigControl.Cli.Commands;

/// <summary><c>new</c>: asks, and writes a commented file that <c>check</c> accepts.</summary>
internal static class NewCommand
{
    public static Command Build() => new("new", "Asks questions and writes a commented file that check accepts.")
    {
        Kind("rig", "what measures and drives, and what must hold", ".rig.yaml", kinds => new RigQuestions(kinds).Ask),
        Kind("article", "the thing under test: controller, rotor, motor, pack", ".article.yaml", _ => ArticleQuestions.Ask),
        Kind("procedure", "what is done, step by step", "-procedure.yaml", _ => ProcedureQuestions.Ask),
        Kind("rules", "limits that you copy from an event's rules", ".rules.yaml", _ => RulesQuestions.Ask),
    };

    private static Command Kind(string kind, string meaning, string ending, Func<PluginKinds, Action<Interview>> script)
    {
        Argument<string> file = new("FILE")
        {
            Description = "File to write; - is standard output.",
            DefaultValueFactory = _ => $"my{ending}",
        };
        Option<string?> plugins = CommonOptions.Plugins();
        Command command = new(kind, $"Asks for {meaning}, and writes the file.") { file, plugins };
        command.SetAction(parsed =>
        {
            PluginKinds kinds = PluginCatalog.Load(parsed.GetValue(plugins) ?? PluginCatalog.DefaultFolder).Kinds;
            return Write(kind, parsed.GetValue(file)!, kinds, script(kinds));
        });
        return command;
    }

    private static int Write(string kind, string file, PluginKinds kinds, Action<Interview> script)
    {
        NewFile.RequireFolder(file);
        IPrompter prompter = Prompter();
        prompter.Say($"Questions for {Article(kind)} file, to be written as {(file == NewFile.StandardOutput ? "standard output" : file)}.");
        prompter.Say($"Answer `{Interview.Back}` to return to the question before, Ctrl-C to leave. Nothing is written before the last answer.");
        Interview interview = new(prompter, text => DocumentReader.Check(text, file, kinds));
        bool write = false;
        Draft draft = interview.Run(ask =>
        {
            write = MayWrite(ask, file);
            if (!write)
                return;
            script(ask);
            ask.RequireInOrder();
        });
        if (!write)
            throw new CliException(ExitCode.BadInput, $"{file} is left as it is; name another file");
        NewFile.Write(file, draft.Text);
        prompter.Say($"{(file == NewFile.StandardOutput ? "the file" : file)} is written and in order; rigcontrol check looks at it again after every change.");
        return ExitCode.Done;
    }

    private static bool MayWrite(Interview ask, string file) => file == NewFile.StandardOutput || !File.Exists(file)
        || ask.Confirm($"{file} is there already. Write over it?", "yes loses what stands in it.");

    private static string Article(string kind) => kind == "article" ? "an article" : $"a {kind}";

    private static IPrompter Prompter() => !Console.IsInputRedirected && !Console.IsErrorRedirected && LiveView.CanDraw
        ? new TerminalPrompter()
        : new PlainPrompter(Console.In, Console.Error, canAskAgain: !Console.IsInputRedirected);
}
