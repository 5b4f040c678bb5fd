namespace RigControl.Runtime.Failsafe;

/// <summary>What a passed verification is worth: for whom, on what, until when. Kept in the record of its run.</summary>
public sealed record FailsafeProof
{
    /// <summary>Run of the verification.</summary>
    public required string Run { get; init; }

    public required DateTimeOffset MadeAt { get; init; }

    public required DateTimeOffset ValidUntil { get; init; }

    /// <summary>The clocks when it was made, to tell whether the wall clock was set since; null where nobody read them.</summary>
    public ComputerClock? Clock { get; init; }

    /// <summary>Whether nothing real was behind it; such a proof is worth nothing on a real rig.</summary>
    public required bool Simulated { get; init; }

    /// <summary>Everything that must still be the same: name to digest or fact. See <see cref="ProofBinding"/>.</summary>
    public required SortedDictionary<string, string> BoundTo { get; init; }

    public required IReadOnlyList<ProvocationResult> Provocations { get; init; }

    /// <summary>What was not provoked, and why; empty too in a proof that was made before this was written down.</summary>
    public IReadOnlyList<Unprovoked> NotProvoked { get; init => field = value ?? []; } = [];

    /// <summary>Keyed digest over all of the above; see <see cref="ProofSeal"/>.</summary>
    public string Seal { get; init; } = "";

    /// <summary>
    /// This proof, of a short verification, in place of an earlier one after a board's start: good for as long as that was and no longer,
    /// since most of what stands behind it was seen then. Null where more changed than that start, or the wall clock was set.
    /// </summary>
    public FailsafeProof? Renewing(FailsafeProof earlier) => ProofBinding.IsRestart(ProofBinding.Changes(earlier.BoundTo, BoundTo)) && Clock?.JumpedSince(earlier.Clock) is null
        ? this with { ValidUntil = earlier.ValidUntil, NotProvoked = earlier.NotProvoked, Provocations = [.. earlier.Provocations.Where(e => Provocations.All(p => p.Name != e.Name)), .. Provocations] }
        : null;
}
