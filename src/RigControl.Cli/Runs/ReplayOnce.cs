using RigControl.Cli.Loading;
using RigControl.Cli.Rehearsals;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Runs;

/// <summary>What a replay found.</summary>
/// <param name="Scans">Scans that came out equal.</param>
/// <param name="Difference">The first difference, or null.</param>
/// <param name="At">Scan of the difference.</param>
/// <param name="ChangedPlugins">Assemblies that are other than in the run.</param>
internal sealed record ReplayReport(string Run, long Scans, string? Difference, long? At, IReadOnlyList<string> ChangedPlugins);

/// <summary>Replays one recorded run.</summary>
internal static class ReplayOnce
{
    public static ReplayReport Run(LogbookFile book, string run, PluginCatalog catalog)
    {
        RunHeader header = book.Header(run);
        if (book.PrunedAt(run) is { } pruned)
            throw new CliException(ExitCode.BadInput, $"run {run} cannot be replayed: its samples were taken away on {pruned.UtcDateTime:yyyy-MM-dd}");
        RigDocuments documents = RehearsalDocument.Into(new DocumentLoader(catalog.Kinds).FromRecord(header), header.Rehearsal);
        Replay replay = Prepare(documents, header, catalog);
        RecordedSamples[] devices = [.. header.Devices.Select((_, i) => new RecordedSamples(book.Samples(run, i)))];
        (string? difference, long? at) = Compare(book, run, replay, devices);
        foreach (RecordedSamples device in devices)
            device.Dispose();
        return new ReplayReport(run, replay.ScansEqual, difference, at, Changed(header, catalog));
    }

    private static Replay Prepare(RigDocuments documents, RunHeader header, PluginCatalog catalog)
    {
        try
        {
            return Replay.Of(documents, header.Channels, catalog);
        }
        catch (AssemblyException e)
        {
            throw new CliException(ExitCode.Difference, e.Reasons);
        }
    }

    private static (string? Difference, long? At) Compare(LogbookFile book, string run, Replay replay, RecordedSamples[] devices)
    {
        foreach (ref readonly ScanRecord record in book.Scans(run))
        {
            for (int i = 0; i < devices.Length; i++)
                devices[i].FeedUpTo(record.Watermarks[i], replay);
            if (replay.Next(record) is { } difference)
                return (difference, record.Scan);
        }

        return (null, null);
    }

    private static IReadOnlyList<string> Changed(RunHeader header, PluginCatalog catalog) => [.. header.Plugins
        .Where(p => catalog.Plugins.All(l => l.Identity != p))
        .Select(p => p.Assembly)];

    /// <summary>One device's samples in the order in which they were folded.</summary>
    private sealed class RecordedSamples(IEnumerable<Sample> samples) : IDisposable
    {
        private readonly IEnumerator<Sample> _samples = samples.GetEnumerator();
        private long _fed;

        public void FeedUpTo(long watermark, Replay replay)
        {
            for (; _fed < watermark && _samples.MoveNext(); _fed++)
                replay.Take(_samples.Current);
        }

        public void Dispose() => _samples.Dispose();
    }
}
