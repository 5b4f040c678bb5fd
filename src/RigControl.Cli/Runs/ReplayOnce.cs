using RigControl.Cli.Loading;
using RigControl.Cli.Rehearsals;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Runs;

/// <summary>What a replay found.</summary>
/// <param name="Scans">Scans that came out equal.</param>
/// <param name="Difference">The first difference, or null.</param>
/// <param name="At">Scan of the difference.</param>
/// <param name="ChangedPlugins">Assemblies that are other than in the run.</param>
internal sealed record ReplayReport(string Run, long Scans, string? Difference, long? At, IReadOnlyList<string> ChangedPlugins)
{
    /// <summary>Time of the last scan that was made again.</summary>
    public TimeSpan Time { get; init; }

    /// <summary>Whether the replay was to be with something changed: rig, article, procedure, or the plugins of now.</summary>
    public bool IsChanged { get; init; }

    /// <summary>Whether the interlocks of the run are others now, so that the sequence was replayed from their recorded demands.</summary>
    public bool FromDemands { get; init; }
}

/// <summary>Replays one recorded run.</summary>
internal static class ReplayOnce
{
    /// <summary>Stands among changed files for the plugins that are installed now.</summary>
    public const string PluginsOfNow = "plugins";

    public static ReplayReport Run(LogbookFile book, string run, PluginCatalog catalog, IReadOnlyList<string> changed)
    {
        RunHeader header = book.Header(run);
        if (book.PrunedAt(run) is { } pruned)
            throw new CliException(ExitCode.BadInput, $"run {run} cannot be replayed: its samples were taken away on {pruned.UtcDateTime:yyyy-MM-dd}");
        if (header.Rig.Name is ForeignRun.ByHand or ForeignRun.Imported && header.Rig.Text.Length == 0)
            throw new CliException(ExitCode.BadInput, $"run {run} cannot be replayed: it was {(header.Rig.Name == ForeignRun.ByHand ? "typed in" : "recorded elsewhere")} and has no scans");
        RigDocuments documents = RehearsalDocument.Into(new DocumentLoader(catalog).FromRecord(header, [.. changed.Where(c => c != PluginsOfNow)]), header.Rehearsal);
        bool fromDemands = changed.Count == 0 && HasOtherInterlocks(header, catalog);
        Replay replay = fromDemands
            ? Replay.OfRecordedDemands(documents, header.Channels, catalog)
            : Prepare(documents, header, catalog, changed.Count > 0 ? ExitCode.BadInput : ExitCode.Difference);
        using RecordedSamples samples = new(book, header);
        (string? difference, long? at) = Compare(book, run, samples, replay, changed.Count == 0 ? replay.Next : replay.NextChanged);
        return new ReplayReport(run, changed.Count == 0 || at is null ? replay.ScansEqual : at.Value - 1, difference, at, Changed(header, catalog))
        {
            Time = replay.Again.Now, IsChanged = changed.Count > 0, FromDemands = fromDemands,
        };
    }

    private static Replay Prepare(RigDocuments documents, RunHeader header, PluginCatalog catalog, int refusal)
    {
        try
        {
            return Replay.Of(documents, header.Channels, catalog);
        }
        catch (AssemblyException e)
        {
            throw new CliException(refusal, e.Reasons);
        }
    }

    private delegate string? Comparing(in ScanRecord recorded);

    private static (string? Difference, long? At) Compare(LogbookFile book, string run, RecordedSamples samples, Replay replay, Comparing next)
    {
        foreach (ref readonly ScanRecord record in book.Scans(run))
        {
            samples.FeedUpTo(record.Watermarks, replay);
            if (next(record) is { } difference)
                return (difference, record.Scan);
        }

        return (null, null);
    }

    // A device's plugin may be another: what it read is in the record.
    private static bool HasOtherInterlocks(RunHeader header, PluginCatalog catalog) =>
        header.Interlocks.Any(i => catalog.MakerOf(i.Plugin) is not { } maker || !header.Plugins.Contains(maker.Identity));

    private static IReadOnlyList<string> Changed(RunHeader header, PluginCatalog catalog) => [.. header.Plugins
        .Where(p => catalog.Plugins.All(l => l.Identity != p))
        .Select(p => p.Assembly)];
}
