using RigControl.Runtime.Failsafe;

namespace RigControl.Runtime.Tests.Failsafe;

/// <summary>A proof of the failsafe holds for what it saw, for its time, and no longer.</summary>
public class ProofTests
{
    private static readonly DateTimeOffset Made = new(2031, 5, 4, 9, 0, 0, TimeSpan.Zero);
    private static readonly ComputerClock Clock = new(Made, "one", TimeSpan.FromHours(1));
    private static readonly byte[] Key = [.. Enumerable.Range(0, ProofSeal.KeyLength).Select(i => (byte)i)];
    private static readonly SortedDictionary<string, string> Rig = new(StringComparer.Ordinal) { ["rig file"] = "r", ["article file"] = "a", ["device board nonce"] = "7" };
    private static readonly ProvocationResult Passed = new("pulse-lid", 2, "stop", "every sign", 0.01, 0.2, true, false);

    [Fact]
    public void A_proof_of_the_rig_as_it_is_holds_to_its_last_moment()
    {
        FailsafeProof proof = Proof();
        Assert.Equal(new ProofVerdict(true, null, "") { Held = proof }, Judge(proof));
        Assert.True(Judge(Proof(), at: Made.AddHours(4)).IsValid);
    }

    [Fact]
    public void Without_one_the_failsafe_has_not_been_verified() => Assert.Equal("the failsafe of this rig with this article has not been verified", Refused(null));

    [Trait("Requirement", "SAF-079")]
    [Fact]
    public void After_its_time_and_before_it_was_made_it_holds_no_more()
    {
        Assert.Contains("was good until 2031-05-04 13:00 UTC", Refused(Proof(), at: Made.AddHours(4).AddTicks(1)), StringComparison.Ordinal);
        Assert.Contains("the clock of this computer went back", Refused(Proof(), at: Made.AddTicks(-1)), StringComparison.Ordinal);
    }

    [Fact]
    public void One_that_was_made_to_last_more_than_twelve_hours_is_worth_nothing() =>
        Assert.Contains("was good until", Refused(Sealed(Proof() with { ValidUntil = Made.AddHours(12).AddTicks(1) })), StringComparison.Ordinal);

    [Trait("Requirement", "SAF-079")]
    [Fact]
    public void Whatever_is_edited_in_it_shows()
    {
        FailsafeProof whole = Proof();
        FailsafeProof[] edited =
        [
            whole with { Run = "other" }, whole with { MadeAt = Made.AddTicks(-1) }, whole with { ValidUntil = Made.AddHours(5) }, whole with { Simulated = true },
            whole with { BoundTo = With("rig file", "s") }, whole with { Provocations = [Passed with { Reaction = 0.001 }] }, whole with { Provocations = [] },
            whole with { Clock = null }, whole with { Clock = Clock with { Start = "another" } }, whole with { Clock = Clock with { Up = Clock.Up + TimeSpan.FromTicks(1) } },
            whole with { Clock = Clock with { Wall = Made.AddHours(-2) } }, whole with { Seal = "" }, whole with { Seal = whole.Seal.ToUpperInvariant() },
        ];
        Assert.All(edited, p => Assert.Equal("the failsafe proof in the logbook was edited, or comes from another machine", Refused(p)));
    }

    [Trait("Requirement", "SAF-094")]
    [Fact]
    public void What_was_not_provoked_is_under_the_seal_and_stays_so_in_a_renewed_proof()
    {
        FailsafeProof whole = Sealed(Proof() with { NotProvoked = [new("pulses-cease", "it cannot")] });
        Assert.True(Judge(whole).IsValid);
        FailsafeProof[] edited = [whole with { NotProvoked = [] }, whole with { NotProvoked = [new("pulses-cease", "seen")] }, Proof() with { NotProvoked = whole.NotProvoked }];
        Assert.All(edited, p => Assert.Contains("was edited", Refused(p), StringComparison.Ordinal));
        FailsafeProof brief = Proof() with { BoundTo = With("device board nonce", "8"), NotProvoked = [new("radio-lost", "short")] };
        Assert.Equal(whole.NotProvoked, brief.Renewing(whole)!.NotProvoked);
    }

    [Fact]
    public void A_proof_from_another_machine_is_none()
    {
        byte[] other = [.. Key.Select(b => (byte)(b + 1))];
        Assert.Contains("comes from another machine", ProofJudge.Judge(Proof(), Rig, simulated: false, Made, other, null).Reason, StringComparison.Ordinal);
    }

    [Trait("Requirement", "SAF-079")]
    [Fact]
    public void What_was_seen_on_a_simulated_rig_says_nothing_of_a_real_one() =>
        Assert.Equal("the failsafe was verified on a simulated rig", Refused(Sealed(Proof() with { Simulated = true })));

    [Fact]
    public void One_in_which_something_did_not_pass_or_nothing_was_tried_is_none()
    {
        Assert.Contains("did not pass", Refused(Sealed(Proof() with { Provocations = [Passed, Passed with { Passed = false }] })), StringComparison.Ordinal);
        Assert.Contains("did not pass", Refused(Sealed(Proof() with { Provocations = [] })), StringComparison.Ordinal);
    }

    [Fact]
    public void What_happened_since_voids_it_and_is_said() =>
        Assert.Equal("the failsafe proof is void: the power stayed on", ProofJudge.Judge(Proof(), Rig, simulated: false, Made, Key, "the power stayed on").Reason);

    [Trait("Requirement", "SAF-079")]
    [Theory]
    [InlineData("rig file", "s")]
    [InlineData("article file", null)]
    [InlineData("plugin more", "p")]
    public void Any_change_voids_it_and_is_named(string name, string? value)
    {
        ProofVerdict verdict = Judge(Proof(), now: With(name, value));
        Assert.Equal((false, null, $"the failsafe proof is void: {name} is not what it was"), (verdict.IsValid, verdict.Renewable, verdict.Reason));
    }

    [Fact]
    public void Where_only_the_board_has_started_again_the_short_verification_renews_it()
    {
        FailsafeProof proof = Proof();
        ProofVerdict verdict = Judge(proof, now: With("device board nonce", "8"));
        Assert.False(verdict.IsValid);
        Assert.Same(proof, verdict.Renewable);
        Assert.Equal("the board has started again since the failsafe was verified", verdict.Reason);
    }

    [Fact]
    public void A_board_that_started_again_on_a_rig_that_changed_needs_the_whole()
    {
        SortedDictionary<string, string> changed = With("device board nonce", "8");
        changed["rig file"] = "s";
        Assert.Null(Judge(Proof(), now: changed).Renewable);
    }

    [Trait("Requirement", "SAF-079")]
    [Fact]
    public void A_renewed_proof_lasts_no_longer_than_the_one_it_renews_however_often()
    {
        FailsafeProof proof = Proof();
        for (int start = 8; start < 20; start++)
        {
            DateTimeOffset at = Made.AddMinutes(15 * (start - 7));
            FailsafeProof brief = Proof() with { MadeAt = at, ValidUntil = at.AddHours(4), BoundTo = With("device board nonce", $"{start}") };
            proof = brief.Renewing(proof)!;
            Assert.Equal(Made.AddHours(4), proof.ValidUntil);
        }

        Assert.Contains("was good until", Refused(Sealed(proof), at: Made.AddHours(5), now: proof.BoundTo), StringComparison.Ordinal);
    }

    [Fact]
    public void A_renewed_proof_keeps_what_was_seen_before_and_takes_anew_what_was_seen_again()
    {
        FailsafeProof whole = Proof() with { Provocations = [Passed, Passed with { Name = "power-cut" }] };
        FailsafeProof brief = Proof() with { BoundTo = With("device board nonce", "8"), Provocations = [Passed with { Reaction = 0.02 }] };
        Assert.Equal([("power-cut", 0.01), ("pulse-lid", 0.02)], brief.Renewing(whole)!.Provocations.Select(p => (p.Name, p.Reaction!.Value)));
    }

    [Trait("Requirement", "SAF-079")]
    [Fact]
    public void Nothing_is_renewed_where_more_changed_meanwhile_than_the_board_s_start() =>
        Assert.Null((Proof() with { BoundTo = With("article file", "b") }).Renewing(Proof()));

    [Trait("Requirement", "SAF-092")]
    [Fact]
    public void Nothing_is_renewed_where_the_clock_was_set_meanwhile()
    {
        ComputerClock later = new(Made.AddHours(1), Clock.Start, Clock.Up + TimeSpan.FromHours(1));
        FailsafeProof brief = Proof() with { BoundTo = With("device board nonce", "8"), Clock = later };
        Assert.NotNull(brief.Renewing(Proof()));
        Assert.Null((brief with { Clock = later with { Wall = Made.AddHours(-1) } }).Renewing(Proof()));
    }

    private static FailsafeProof Proof() => Sealed(new FailsafeProof
    {
        Run = "r1", MadeAt = Made, Clock = Clock, ValidUntil = Made.AddHours(4), Simulated = false, BoundTo = new(Rig, StringComparer.Ordinal), Provocations = [Passed],
    });

    private static FailsafeProof Sealed(FailsafeProof proof) => ProofSeal.Seal(proof, Key);

    private static SortedDictionary<string, string> With(string name, string? value)
    {
        SortedDictionary<string, string> changed = new(Rig, StringComparer.Ordinal);
        if (value is null)
            changed.Remove(name);
        else
            changed[name] = value;
        return changed;
    }

    private static ProofVerdict Judge(FailsafeProof? proof, DateTimeOffset? at = null, SortedDictionary<string, string>? now = null) =>
        ProofJudge.Judge(proof, now ?? Rig, simulated: false, at ?? Made, Key, null);

    private static string Refused(FailsafeProof? proof, DateTimeOffset? at = null, SortedDictionary<string, string>? now = null)
    {
        ProofVerdict verdict = Judge(proof, at, now);
        Assert.False(verdict.IsValid);
        return verdict.Reason;
    }
}
