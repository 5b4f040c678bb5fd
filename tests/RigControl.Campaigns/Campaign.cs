using System.Collections.Concurrent;
using RigControl.Campaigns.Checkers;

namespace RigControl.Campaigns;

/// <summary>Many seeds on all cores.</summary>
public static class Campaign
{
    /// <summary>That a person gets back to work once what was wrong is mended.</summary>
    public const string Recovery = "with the faults ended a patient operator reaches the level again";

    /// <summary>That nobody waits for an answer, and nobody gets two.</summary>
    public const string OneReceipt = "every command has one receipt";

    /// <summary>Everything that is checked, each a sentence; a broken one begins with it.</summary>
    public static IReadOnlyList<string> Promises { get; } = [.. Checker.All().Select(c => c.Promise), OneReceipt, Recovery];

    /// <summary>Ids of the interlocks of the campaign's rig, in their places.</summary>
    public static IReadOnlyList<string> Interlocks { get; } = [.. CampaignRig.Driven.Rig.Interlocks.Select(i => i.Id)];

    /// <param name="first">First seed; the others follow.</param>
    /// <param name="count">How many.</param>
    /// <param name="onBroken">Hears every broken promise with its seed, from any thread.</param>
    /// <param name="onDone">Hears the summary so far after every run, from any thread.</param>
    /// <param name="before">What earlier seeds of the same campaign have shown; the summary goes on from there.</param>
    public static Summary Run(ulong first, long count, Action<string> onBroken, Action<Summary>? onDone = null, Summary? before = null)
    {
        Summary summary = before ?? new();
        Parallel.ForEach(Partitioner.Create(0, count, 16), range =>
        {
            for (long i = range.Item1; i < range.Item2; i++)
            {
                Scenario scenario = Scenario.Of(first + (ulong)i);
                CampaignResult result = new CampaignRun(scenario).Run();
                summary.Add(scenario, result);
                foreach (string sentence in result.Broken)
                    onBroken($"seed {result.Seed}: {sentence} [{string.Join(", ", scenario.Faults.Select(f => f.Kind))}]");
                onDone?.Invoke(summary);
            }
        });
        return summary;
    }
}
