using RigControl.Mutants.Trying;

namespace RigControl.Mutants.Kernel;

/// <summary>The kernel's tests in the order of what they cost: what the quick ones notice need not be shown to the slow ones.</summary>
internal static class Stages
{
    private static readonly string[] Random = ["*FoldPropertyTests", "*RandomRunTests", "*PlantedDefectTests"];
    private static readonly string[] Exploration = ["*ExplorationTests", "*AbstractionTests"];

    private static readonly (string[] Filter, TimeSpan Longest)[] All =
    [
        ([.. Not(Random), .. Not(Exploration)], TimeSpan.FromMinutes(2)),
        (Only(Random), TimeSpan.FromMinutes(4)),
        (Only(Exploration), TimeSpan.FromMinutes(8)),
    ];

    /// <summary>The word of the first of them that notices.</summary>
    /// <param name="copy">The tests, with the changed kernel laid over.</param>
    /// <param name="quick">Whether the exploration is left out.</param>
    public static Verdict Run(TestCopy copy, bool quick) => All.Take(quick ? All.Length - 1 : All.Length).Select(s => copy.Run(s.Filter, s.Longest)).FirstOrDefault(v => v.IsCaught) ?? Verdict.Unnoticed;

    private static string[] Only(string[] classes) => [.. classes.SelectMany(c => new[] { "--filter-class", c })];

    private static string[] Not(string[] classes) => [.. classes.SelectMany(c => new[] { "--filter-not-class", c })];
}
