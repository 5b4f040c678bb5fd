using System.Globalization;
using RigControl.Cli.Asking;
using Spectre.Console;
using Spectre.Console.Rendering;

namespace RigControl.Cli.Signals;

/// <summary>The signals as a person at the bench sees them: two columns of channels, and below what objects.</summary>
internal static class SignalScreen
{
    /// <param name="width">Columns of the terminal.</param>
    public static IRenderable Of(Snapshot seen, int width)
    {
        List<Signal> inputs = [.. SignalText.Inputs(seen)];
        Table table = new() { Border = TableBorder.None, ShowHeaders = false };
        table.AddColumn("").AddColumn(new TableColumn("").RightAligned().PadRight(4)).AddColumn("").AddColumn(new TableColumn("").RightAligned());
        int half = (inputs.Count + 1) / 2;
        for (int i = 0; i < half; i++)
            table.AddRow([.. Cells(inputs[i]), .. i + half < inputs.Count ? Cells(inputs[i + half]) : [Text.Empty, Text.Empty]]);
        return new Rows([.. Head(seen), Text.Empty, table, Text.Empty, .. Objections(seen, width)]);
    }

    private static IRenderable[] Head(Snapshot seen)
    {
        string simulated = seen.Simulated ? " (simulated)" : "";
        string time = seen.At.ToString("0.0", CultureInfo.InvariantCulture);
        return
        [
            new Markup($"[bold red]{(seen.State == "SafeStop" ? "SAFE-STOP" : seen.State)}[/]  [bold]{Markup.Escape(seen.Rig)}{simulated}[/]  {time} s"),
            new Markup("every output off, nothing armed; [bold]q[/] leaves"),
        ];
    }

    private static IRenderable[] Cells(Signal signal) =>
        [new Markup(Markup.Escape(signal.Name)), new Markup(signal.Value is null ? $"[bold red]{SignalText.Value(signal)}[/]" : Markup.Escape(SignalText.Value(signal)))];

    private static IEnumerable<IRenderable> Objections(Snapshot seen, int width)
    {
        Objecting[] objecting = [.. seen.Interlocks.Where(i => i.Objects)];
        yield return new Markup($"[bold]{objecting.Length} of {seen.Interlocks.Count} interlocks object[/]");
        foreach (Objecting interlock in objecting)
        {
            foreach (string line in Lines.Wrap($"{interlock.Name}: {interlock.Says}", width - 2))
                yield return new Markup($"  [red]{Markup.Escape(line)}[/]");
        }
    }
}
