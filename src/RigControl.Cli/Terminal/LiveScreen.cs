using System.Globalization;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;
using Spectre.Console;
using Spectre.Console.Rendering;

namespace RigControl.Cli.Terminal;

/// <summary>One picture of the run: state large, progress, the tightest interlock first, channels, the keys, what happened last.</summary>
internal sealed class LiveScreen(AssembledRig rig)
{
    private const int WideEnough = 120;

    private readonly Narrator _narrator = new(rig);
    private readonly Progress _progress = new(rig.Configuration);

    public IRenderable Of(in ScanRecord record, in InputImage image, IReadOnlyList<RigEvent> recent, string prompt)
    {
        IRenderable interlocks = Interlocks(record);
        IRenderable channels = Channels(image);
        IRenderable middle = AnsiConsole.Profile.Width >= WideEnough
            ? new Columns(interlocks, channels)
            : new Rows(interlocks, channels);
        // What matters most stands highest: a low window cuts off the bottom.
        return new Rows(
            State(record), new Markup(_progress.Of(record)), new Markup($"[bold]{Markup.Escape(prompt)}[/]"), Events(recent), middle);
    }

    // Large letters and a background of its own: to be read from two metres, also without telling colours apart.
    private static Rows State(in ScanRecord record)
    {
        (string word, Color colour) = record.State switch
        {
            RigState.SafeStop => ("SAFE-STOP", Color.Red),
            RigState.Idle => ("IDLE", Color.Green),
            _ when record.Phase == ArmingPhase.Warning => ("WARNING", Color.Orange1),
            RigState.Arming when record.Phase == ArmingPhase.AwaitingStart => ("READY", Color.Yellow),
            RigState.Arming => ("ARMING", Color.Yellow),
            RigState.SpinUp => ("SPIN-UP", Color.Orange1),
            RigState.Hold => ("HOLD", Color.Orange1),
            _ => ("COAST-DOWN", Color.Yellow),
        };
        string meaning = record.State switch
        {
            RigState.SafeStop => record.AtStandstill ? "output stopped; r resets once every cause is clear" : "output stopped; the rotor may still turn",
            RigState.Idle => "nothing energised",
            RigState.Arming when record.Phase == ArmingPhase.AwaitingStart => "POWER IS ON; s starts",
            _ => "KEEP CLEAR; SPACE stops",
        };
        return new Rows(new FigletText(word) { Color = colour }, new Markup($"[bold]{meaning}[/]"));
    }

    private IRenderable Interlocks(in ScanRecord record)
    {
        Table table = new() { Border = TableBorder.Simple, Title = new TableTitle("interlocks, tightest first") };
        table.AddColumn("interlock").AddColumn("margin").AddColumn("reading");
        foreach ((int place, Demand demand) in Tightest(record))
        {
            bool objects = demand.Action != DemandAction.Proceed;
            string mark = objects ? "[bold red]OBJECTS[/]" : Bar(demand.Margin);
            table.AddRow(new Markup(Markup.Escape(rig.Configuration.InterlockAt(place).Id)), new Markup(mark), new Markup(Markup.Escape(_narrator.Explain(place, demand))));
        }

        return table;
    }

    private static IEnumerable<(int Place, Demand Demand)> Tightest(ScanRecord record) => Enumerable.Range(0, record.InterlockCount)
        .Select(i => (Place: i, Demand: record.Demands[i]))
        .OrderBy(d => d.Demand.Action).ThenBy(d => d.Demand.Margin).ThenBy(d => d.Place);

    private static string Bar(double margin)
    {
        double share = Math.Clamp(margin, 0, 1);
        int full = (int)Math.Round(share * 10);
        return $"{new string('#', full)}{new string('.', 10 - full)} {(share * 100).ToString("0", CultureInfo.InvariantCulture),3} %";
    }

    private IRenderable Channels(in InputImage image)
    {
        Table table = new() { Border = TableBorder.Simple, Title = new TableTitle("channels") };
        table.AddColumn("channel").AddColumn(new TableColumn("value").RightAligned()).AddColumn("unit");
        foreach (Channel channel in rig.Channels.Where(c => c.Name.Split('.')[0] is not ("device" or "recorder" or "scan")))
        {
            ImageEntry entry = image[channel.Index];
            string value = entry.IsUsable ? entry.Last.ToString("0.###", CultureInfo.InvariantCulture) : $"[bold red]{Bad(entry.Cause)}[/]";
            table.AddRow(new Markup(Markup.Escape(channel.Name)), new Markup(value), new Markup(channel.Declaration.Unit == "1" ? "" : Markup.Escape(channel.Declaration.Unit)));
        }

        return table;
    }

    private static IRenderable Events(IReadOnlyList<RigEvent> recent) =>
        new Rows(recent.Select(e => new Markup((e.Name == EventNames.Trip ? "[bold red]" : "[grey]") + Markup.Escape(EventLines.Of(e)) + "[/]")));

    private static string Bad(BadCause cause) => cause switch
    {
        BadCause.Never => "none yet",
        BadCause.TooOld => "too old",
        BadCause.OutOfRange => "out of range",
        BadCause.Frozen => "frozen",
        _ => "bad",
    };
}
