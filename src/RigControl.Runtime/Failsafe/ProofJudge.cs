namespace RigControl.Runtime.Failsafe;

/// <summary>Whether a proof still holds.</summary>
/// <param name="IsValid">Whether the rig may be run on it.</param>
/// <param name="Renewable">The proof against which nothing stands but a board's start, so that the short verification is enough; null where it is not.</param>
/// <param name="Reason">Why it does not hold, a sentence; empty where it does.</param>
public sealed record ProofVerdict(bool IsValid, FailsafeProof? Renewable, string Reason)
{
    /// <summary>The proof that holds; null where none does.</summary>
    public FailsafeProof? Held { get; init; }
}

/// <summary>Judges a proof against what the rig is now. Every change voids it, and the verdict says which.</summary>
public static class ProofJudge
{
    /// <summary>How long a proof lasts where nothing else is said: a morning at the bench.</summary>
    public static readonly TimeSpan UsualTime = TimeSpan.FromHours(4);

    /// <summary>Longest time that a proof can be made to last: one day's work.</summary>
    public static readonly TimeSpan LongestTime = TimeSpan.FromHours(12);

    /// <param name="proof">The latest; null where there is none.</param>
    /// <param name="bound">What the rig is now.</param>
    /// <param name="simulated">Whether nothing real is behind the rig now.</param>
    /// <param name="now">By the wall clock.</param>
    /// <param name="key">Of this machine.</param>
    /// <param name="since">What happened on this rig after the proof and voids it, a sentence; null for nothing.</param>
    public static ProofVerdict Judge(FailsafeProof? proof, SortedDictionary<string, string> bound, bool simulated, DateTimeOffset now, ReadOnlySpan<byte> key, string? since)
    {
        if (proof is null)
            return Void("the failsafe of this rig with this article has not been verified");
        if (!ProofSeal.IsWhole(proof, key))
            return Void("the failsafe proof in the logbook was edited, or comes from another machine");
        if (proof.Simulated != simulated)
            return Void("the failsafe was verified on a simulated rig");
        if (!proof.Provocations.All(p => p.Passed) || proof.Provocations.Count == 0)
            return Void("the failsafe proof holds a provocation that did not pass");
        if (now < proof.MadeAt)
            return Void("the clock of this computer went back to before the failsafe proof was made");
        if (now > proof.ValidUntil || proof.ValidUntil - proof.MadeAt > LongestTime)
            return Void($"the failsafe proof was good until {proof.ValidUntil.UtcDateTime:yyyy-MM-dd HH:mm} UTC");
        if (since is not null)
            return Void($"the failsafe proof is void: {since}");
        IReadOnlyList<string> changes = ProofBinding.Changes(proof.BoundTo, bound);
        if (changes.Count == 0)
            return new ProofVerdict(true, null, "") { Held = proof };
        return ProofBinding.IsRestart(changes)
            ? new ProofVerdict(false, proof, "the board has started again since the failsafe was verified")
            : Void($"the failsafe proof is void: {string.Join(", ", changes)} {(changes.Count == 1 ? "is" : "are")} not what it was");
    }

    private static ProofVerdict Void(string reason) => new(false, null, reason);
}
