using RigControl.Telemetry.Watching;
using Spectre.Console;
using Spectre.Console.Rendering;

namespace RigControl.Cli.Terminal;

/// <summary>A site at the terminal: drawn four times a second, or a plain line for each rig once a second.</summary>
internal static class SiteView
{
    // Four times a second: rigs say their data ten times a second, and several are watched at once.
    private static readonly TimeSpan DrawPeriod = TimeSpan.FromMilliseconds(250);
    // One plain line a second where nothing can be drawn.
    private static readonly TimeSpan PrintPeriod = TimeSpan.FromSeconds(1);

    // Head, the table's own lines, foot, and the line below in which the cursor stands.
    private const int LinesAround = 7;

    /// <summary>Draws until cancelled, which Ctrl-C does.</summary>
    public static void Draw(SiteWatcher watcher, string site, CancellationToken cancelled)
    {
        AnsiConsole.Live(Text.Empty).AutoClear(true).Overflow(VerticalOverflow.Crop).Cropping(VerticalOverflowCropping.Bottom).Start(context =>
        {
            do
            {
                context.UpdateTarget(Of(watcher.Rigs(), site, watcher.Trouble, AnsiConsole.Profile.Width, AnsiConsole.Profile.Height));
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

    /// <summary>One picture of the site: a line for each rig, then as many causes of their trips as there is room for.</summary>
    public static IRenderable Of(IReadOnlyList<RigGlimpse> rigs, string site, string? trouble, int width, int height)
    {
        Table table = new() { Border = TableBorder.Simple, Expand = true };
        foreach (string title in new[] { "rig", "state", "tightest interlock", "trips", "link" })
            table.AddColumn(new TableColumn(title).NoWrap());
        int room = Math.Max(1, height - LinesAround);
        foreach (RigGlimpse rig in rigs.Take(room))
            table.AddRow(Name(rig, width), State(rig), Cell(SiteLines.Tightest(rig), rig.Objects ? "bold red" : Plain(rig)), Trips(rig), Link(rig));
        IEnumerable<IRenderable> causes = SiteLines.Causes(rigs).Take(Math.Max(0, room - rigs.Count - 1)).Select(c => Cell(Shortened(c, width), "default"));
        return new Rows([Head(site, trouble, width), table, .. causes, Foot(rigs.Count, room, width)]);
    }

    // A broken link stands above everything that is old because of it.
    private static Markup Head(string site, string? trouble, int width) => trouble is null
        ? Cell($"site {site}", "bold")
        : Cell(Shortened($"site {site}: {trouble}", width), "bold red");

    private static Markup Foot(int rigs, int room, int width) => Cell(Shortened(rigs switch
    {
        0 => "no rig of this site has been heard",
        _ when rigs > room => $"{rigs - room} rigs more than this window has lines for; make it taller",
        _ => $"{rigs} rig{(rigs == 1 ? "" : "s")}   Ctrl-C ends; this only watches, the stop is at the rig",
    }, width), "dim");

    private static string Shortened(string text, int width) => text.Length < width ? text : text[..Math.Max(0, width - 2)] + "…";

    private static Markup Name(RigGlimpse rig, int width) =>
        new($"[bold]{Markup.Escape(Shortened(rig.Rig, Math.Max(12, width / 4)))}[/]{(rig.Simulated ? " [dim]sim[/]" : "")}");

    // A state that may be out of date is never shown as if it were so now.
    private static Markup State(RigGlimpse rig) => rig.IsStale ? Cell($"{SiteLines.State(rig)} ?", "dim") : Cell(SiteLines.State(rig), rig switch
    {
        { State: "SafeStop" } => "bold white on red",
        { State: "Idle" } => "bold green",
        { Phase: "Warning" } or { State: "SpinUp" or "Hold" } => "bold black on orange1",
        _ => "bold black on yellow",
    });

    private static Markup Trips(RigGlimpse rig) => Cell(SiteLines.TripsInShort(rig), rig.Trips.Count > 0 ? "bold red" : Plain(rig));

    private static Markup Link(RigGlimpse rig) => Cell(SiteLines.Link(rig), rig.Status == "lost" || rig.Age > RigGlimpse.Silence ? "bold red" : Plain(rig));

    private static string Plain(RigGlimpse rig) => rig.IsStale ? "dim" : "default";

    private static Markup Cell(string text, string style) => new($"[{style}]{Markup.Escape(text)}[/]");
}
