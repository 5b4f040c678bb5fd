using System.Collections.Frozen;
using RigControl.Kernel.Tests.Exploration;

namespace RigControl.Campaigns.Checkers;

/// <summary>Holds every scan against the ways that the exhaustive exploration has found, which stand as data in shared/kernel.</summary>
internal sealed class OnlyExploredWays : Checker
{
    private static readonly FrozenSet<Passage> Explored = new[] { "an-ordinary-run", "a-board-behind-a-link", "the-receiver-behind-its-gate" }.SelectMany(Read).ToFrozenSet();

    public override string Promise => "every scan takes a way that the exploration has visited";

    // While no host runs, nothing is scanned.
    protected override bool Holds(in Observation seen) => seen.Record.Scan == 0 || Explored.Contains(Passage.Of(seen.Record));

    private static IEnumerable<Passage> Read(string name)
    {
        using StreamReader lines = new(typeof(OnlyExploredWays).Assembly.GetManifestResourceStream("passages-" + name)
            ?? throw new InvalidOperationException($"{name} is not part of the program"));
        while (lines.ReadLine() is { } line)
            yield return Passage.Parse(line);
    }
}
