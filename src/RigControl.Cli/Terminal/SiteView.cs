using RigControl.Telemetry.Watching;
using Spectre.Console;
using Spectre.Console.Rendering;

namespace RigControl.Cli.Terminal;

/// <summary>A site at the terminal: drawn four times a second, or a plain line for each rig once a second.</summary>
internal static class SiteView
{
    private static readonly TimeSpan DrawPeriod = TimeSpan.FromMilliseconds(250);
    private static readonly TimeSpan PrintPeriod = TimeSpan.FromSeconds(1);

    /// <summary>Draws until cancelled, which Ctrl-C does.</summary>
    public static void Draw(SiteWatcher watcher, string site, CancellationToken cancelled)
    {
        AnsiConsole.Live(Text.Empty).AutoClear(true).Overflow(VerticalOverflow.Crop).Cropping(VerticalOverflowCropping.Bottom).Start(context =>
        {
            do
            {
                context.UpdateTarget(Of(watcher.Rigs(), site, watcher.Trouble));
                context.Refresh();
            }
            while (!cancelled.WaitHandle.WaitOne(DrawPeriod));
        });
    }

    /// <summary>Prints until cancelled.</summary>
    public static void Print(SiteWatcher watcher, CancellationToken cancelled)
    {
        while (!cancelled.WaitHandle.WaitOne(PrintPeriod))
        {
            if (watcher.Trouble is { } trouble)
                Console.Error.WriteLine(trouble);
            foreach (string line in SiteLines.Of(watcher.Rigs()))
                Console.WriteLine(line);
        }
    }

    /// <summary>One picture of the site.</summary>
    public static IRenderable Of(IReadOnlyList<RigGlimpse> rigs, string site, string? trouble)
    {
        Table table = new() { Border = TableBorder.Simple, Expand = true };
        table.AddColumn("rig").AddColumn(new TableColumn("state").NoWrap()).AddColumn("tightest interlock").AddColumn("trips").AddColumn(new TableColumn("link").NoWrap());
        foreach (RigGlimpse rig in rigs)
            table.AddRow(Name(rig), State(rig), Cell(SiteLines.Tightest(rig), rig.Objects ? "bold red" : Plain(rig)), Trips(rig), Link(rig));
        string below = trouble is null ? $"{rigs.Count} rig{(rigs.Count == 1 ? "" : "s")}   Ctrl-C ends; this only watches, the stop is at the rig" : Markup.Escape(trouble);
        return new Rows(new Markup($"[bold]site {Markup.Escape(site)}[/]"), table, new Markup(trouble is null ? $"[grey]{below}[/]" : $"[bold red]{below}[/]"));
    }

    private static Markup Name(RigGlimpse rig) => new($"[bold]{Markup.Escape(rig.Rig)}[/]{(rig.Simulated ? " [grey]simulated[/]" : "")}");

    // A state that may be out of date is never shown as if it were so now.
    private static Markup State(RigGlimpse rig) => rig.IsStale ? Cell($"{SiteLines.State(rig)} ?", "grey") : Cell(SiteLines.State(rig), rig switch
    {
        { State: "SafeStop" } => "bold white on red",
        { State: "Idle" } => "bold green",
        { Phase: "Warning" } or { State: "SpinUp" or "Hold" } => "bold black on orange1",
        _ => "bold black on yellow",
    });

    private static Markup Trips(RigGlimpse rig) => Cell(SiteLines.Trips(rig), rig.Trips.Count > 0 ? "bold red" : Plain(rig));

    private static Markup Link(RigGlimpse rig) => Cell(SiteLines.Link(rig), rig.Status == "lost" || rig.Age > RigGlimpse.Silence ? "bold red" : Plain(rig));

    private static string Plain(RigGlimpse rig) => rig.IsStale ? "grey" : "default";

    private static Markup Cell(string text, string style) => new($"[{style}]{Markup.Escape(text)}[/]");
}
