using System.CommandLine;
using System.Globalization;
using System.Text.RegularExpressions;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Runs;
using RigControl.Cli.Signals;
using RigControl.Cli.Terminal;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;
using Spectre.Console;

namespace RigControl.Cli.Commands;

/// <summary><c>signals</c>: every input live, all outputs off, nothing armed.</summary>
internal static partial class SignalsCommand
{
    /// <summary>How long a snapshot looks at most for every channel to have spoken.</summary>
    private static readonly TimeSpan SnapshotTime = TimeSpan.FromSeconds(5);

    // Nobody watches for longer, and a forgotten window must end some time.
    private static readonly TimeSpan Longest = TimeSpan.FromDays(1);

    public static Command Build()
    {
        (Option<string?> rig, Option<string?> article, Option<string?> plugins) = (CommonOptions.Rig(), CommonOptions.Article(), CommonOptions.Plugins());
        Option<bool> json = CommonOptions.Json();
        Option<string?> stay = new("--for") { Description = "How long to look, such as 10 s. Default: until q or Ctrl-C; with --json until every channel has a reading, at most 5 s.", HelpName = "TIME" };
        Command command = new("signals", "Shows every input live, with all outputs off and nothing armed.") { rig, article, plugins, json, stay };
        command.SetAction(parsed => Show(
            parsed.GetValue(rig), parsed.GetValue(article), PluginCatalog.Load(parsed.GetValue(plugins) ?? PluginCatalog.DefaultFolder),
            parsed.GetValue(json), TimeOf(parsed.GetValue(stay))));
        return command;
    }

    private const int SettledLooks = 10;

    private static int Show(string? rigFile, string? articleFile, PluginCatalog catalog, bool json, TimeSpan? stay)
    {
        string article = RunOnce.ArticleFile(rigFile, articleFile);
        RigDocuments documents = new DocumentLoader(catalog).ForLooking(rigFile ?? DocumentLoader.SimulatedRig, article);
        using AssembledRig rig = RunOnce.Assemble(documents, catalog, seed: 1);
        using Looking looking = new(rig, stay ?? (json ? SnapshotTime : null));
        if (json)
            JsonText.Write(Snapshot(looking, atOnce: stay is null) ?? throw new CliException(ExitCode.DeviceOrStorage, "nothing was seen; look for longer with --for"));
        else if (LiveView.CanDraw)
            Draw(looking);
        else
            looking.Run(TimeSpan.FromSeconds(1), seen => Console.WriteLine(SignalText.Line(seen)));
        return ExitCode.Done;
    }

    // A device's first word may be older than its outputs: a second's worth of looks lets it settle.
    private static Snapshot? Snapshot(Looking looking, bool atOnce)
    {
        int looks = 0;
        return looking.Run(TimeSpan.FromMilliseconds(100), seen =>
        {
            if (atOnce && ++looks >= SettledLooks && seen.Channels.All(c => c.Value is not null))
                looking.Leave();
        });
    }

    private static void Draw(Looking looking)
    {
        AnsiConsole.Live(Text.Empty).AutoClear(false).Overflow(VerticalOverflow.Crop).Cropping(VerticalOverflowCropping.Bottom).Start(context =>
            looking.Run(TimeSpan.FromMilliseconds(200), seen =>
            {
                while (!Console.IsInputRedirected && Console.KeyAvailable)
                {
                    if (char.ToLowerInvariant(Console.ReadKey(intercept: true).KeyChar) == 'q')
                        looking.Leave();
                }

                context.UpdateTarget(SignalScreen.Of(seen, AnsiConsole.Profile.Width));
                context.Refresh();
            }));
    }

    private static TimeSpan? TimeOf(string? text)
    {
        if (text is null)
            return null;
        Match match = Time().Match(text);
        double seconds = match.Success ? double.Parse(match.Groups[1].ValueSpan, CultureInfo.InvariantCulture) * (match.Groups[2].Value == "ms" ? 0.001 : 1) : 0;
        return seconds > 0 && seconds <= Longest.TotalSeconds
            ? TimeSpan.FromSeconds(seconds)
            : throw new CliException(ExitCode.BadInput, $"--for {text} is no time; write seconds with their unit, such as --for \"10 s\", up to 86400 s");
    }

    [GeneratedRegex(@"^([0-9]{1,9}(?:\.[0-9]{1,9})?) *(s|ms)$")]
    private static partial Regex Time();
}
