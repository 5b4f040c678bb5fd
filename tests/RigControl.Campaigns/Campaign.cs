using System.Globalization;

namespace RigControl.Campaigns;

/// <summary>Many seeds on all cores.</summary>
public static class Campaign
{
    /// <param name="first">First seed; the others follow.</param>
    /// <param name="count">How many.</param>
    /// <param name="onBroken">Hears every broken promise with its seed.</param>
    public static Summary Run(ulong first, long count, Action<string> onBroken)
    {
        (long counted, long held, long trips, long violations) = (0, 0, 0, 0);
        Parallel.For(0, count, i =>
        {
            CampaignResult result = new CampaignRun(Scenario.Of(first + (ulong)i)).Run();
            Interlocked.Add(ref counted, result.LeftSafeStop ? 1 : 0);
            Interlocked.Add(ref held, result.Held ? 1 : 0);
            Interlocked.Add(ref trips, result.Trips);
            Interlocked.Add(ref violations, result.Broken.Count);
            foreach (string sentence in result.Broken)
                onBroken($"seed {result.Seed}: {sentence} [{string.Join(", ", Scenario.Of(result.Seed).Faults.Select(f => f.Kind))}]");
        });
        return new Summary(count, counted, held, trips, violations);
    }
}

/// <summary>What a campaign found.</summary>
/// <param name="Runs">Seeds run.</param>
/// <param name="Counted">Runs that left safe-stop; the others prove nothing.</param>
/// <param name="Held">Runs that held a level at least once.</param>
/// <param name="Trips">Trips in all runs.</param>
/// <param name="Violations">Broken promises.</param>
public sealed record Summary(long Runs, long Counted, long Held, long Trips, long Violations)
{
    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{Runs} runs, {Counted} left safe-stop, {Held} held a level, {Trips} trips, {Violations} violations");
}
