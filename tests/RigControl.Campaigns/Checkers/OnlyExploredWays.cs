using System.Collections.Frozen;
using RigControl.Kernel.Tests.Exploration;

namespace RigControl.Campaigns.Checkers;

/// <summary>Holds every scan against the ways that the exhaustive exploration has found, which stand as data in shared/kernel.</summary>
internal sealed class OnlyExploredWays : Checker
{
    private static readonly FrozenSet<Passage> Explored = new[] { "an-ordinary-run", "a-board-behind-a-link", "the-receiver-behind-its-gate" }.SelectMany(Read).ToFrozenSet();

    public override string Promise => "every scan takes a way that the exploration has visited";

    private long _latest;

    // While no host runs, nothing is scanned; in a period that the host missed, the latest record is that of the scan before.
    protected override bool Holds(in Observation seen)
    {
        bool isNew = seen.Record.Scan != 0 && seen.Record.Scan != _latest;
        _latest = seen.Record.Scan;
        return !isNew || Explored.Contains(Passage.Of(seen.Record));
    }

    protected override string Where(in Observation seen) => Passage.Of(seen.Record).Line;

    private static IEnumerable<Passage> Read(string name)
    {
        using StreamReader lines = new(typeof(OnlyExploredWays).Assembly.GetManifestResourceStream("passages-" + name)
            ?? throw new InvalidOperationException($"{name} is not part of the program"));
        while (lines.ReadLine() is { } line)
            yield return Passage.Parse(line);
    }
}
