using RigControl.Cli.Loading;
using RigControl.Cli.Rehearsals;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Reports.Pages;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Reporting;

/// <summary>
/// The least room of every interlock while the output was on. The record keeps a demand's numbers only where its action
/// changes, so they come from a replay; where it is not equal bit for bit there are none, and the reason is told.
/// </summary>
internal static class MarginReader
{
    public static (IReadOnlyList<InterlockMargin> Margins, string? Lacking) Read(LogbookFile book, RunHeader header, PluginCatalog catalog)
    {
        if (header.Interlocks.Count == 0)
            return ([], null);
        try
        {
            RigDocuments documents = RehearsalDocument.Into(new DocumentLoader(catalog).FromRecord(header), header.Rehearsal);
            return Follow(book, header, Replay.Of(documents, header.Channels, catalog));
        }
        catch (Exception e) when (e is AssemblyException or CliException)
        {
            return ([], $"The room of the interlocks cannot be told: {e.Message}");
        }
    }

    private static (IReadOnlyList<InterlockMargin>, string?) Follow(LogbookFile book, RunHeader header, Replay replay)
    {
        InterlockMargin?[] least = new InterlockMargin?[header.Interlocks.Count];
        using RecordedSamples samples = new(book, header);
        foreach (ref readonly ScanRecord record in book.Scans(header.Run))
        {
            samples.FeedUpTo(record.Watermarks, replay);
            if (replay.Next(record) is { } difference)
                return ([], $"The room of the interlocks cannot be told, since the run does not replay: {difference}.");
            if (!(record.Outputs.Throttle != 0 || record.Before is RigState.SpinUp or RigState.Hold))
                continue;
            for (int i = 0; i < least.Length; i++)
            {
                Demand demand = replay.Again.Demands[i];
                if (demand.Margin < (least[i]?.Margin ?? double.PositiveInfinity))
                    least[i] = new InterlockMargin(header.Interlocks[i].Id, demand.Margin, replay.Explain(i), record.Now.TotalSeconds);
            }
        }

        return ([.. least.OfType<InterlockMargin>()], null);
    }
}
