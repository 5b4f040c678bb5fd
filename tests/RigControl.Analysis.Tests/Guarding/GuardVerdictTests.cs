using RigControl.Analysis.Guarding;
using RigControl.Analysis.Tests.Support;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Tests.Guarding;

/// <summary>Whether a guard must be locked follows from how long the rotor turns on and how soon a hand can be there.</summary>
public class GuardVerdictTests
{
    private static readonly StoppingTime Minute = new(60);
    private static readonly GuardDefinition Screwed = new() { Kind = GuardKind.Fixed, Source = "tried", OpeningTime = TimeSpan.FromSeconds(91), Margin = 0.5 };
    private static readonly GuardDefinition Lid = new() { Kind = GuardKind.Interlocked, Source = "tried", OpeningTime = TimeSpan.FromSeconds(1), Release = new(NeedsTool: true, OpensCoil: true) };

    [Trait("Requirement", "SAF-084")]
    [Theory]
    [InlineData(91, 0.5, false)]
    [InlineData(90, 0.5, true)]
    [InlineData(61, 0.5, true)]
    [InlineData(91, double.NaN, true)]
    public void A_fixed_guard_is_accepted_only_where_opening_it_takes_longer_than_the_stopping_time_with_margin(double seconds, double margin, bool refused)
    {
        GuardVerdict verdict = GuardVerdict.Of(Screwed with { OpeningTime = TimeSpan.FromSeconds(seconds), Margin = margin }, Minute, hasLock: false);
        Assert.Equal((refused, refused), (verdict.IsRefused, verdict.NeedsLock));
        Assert.Contains($"takes {seconds} s, as declared (tried)", verdict.Sentence, StringComparison.Ordinal);
        Assert.EndsWith(refused ? "not accepted; use a guard that is locked until standstill" : "accepted on that word", verdict.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void A_fixed_guard_without_opening_time_or_margin_is_not_accepted()
    {
        Assert.True(GuardVerdict.Of(Screwed with { OpeningTime = null }, Minute, false).IsRefused);
        Assert.True(GuardVerdict.Of(Screwed with { Margin = null }, Minute, false).IsRefused);
    }

    [Trait("Requirement", "SAF-084")]
    [Theory]
    [InlineData(59, true)]
    [InlineData(60, true)]
    [InlineData(61, false)]
    public void A_lid_must_be_locked_where_a_hand_can_be_there_before_the_rotor_stands(double seconds, bool needed)
    {
        GuardDefinition lid = Lid with { OpeningTime = TimeSpan.FromSeconds(seconds) };
        Assert.Equal(needed, GuardVerdict.Of(lid, Minute, hasLock: true).NeedsLock);
        string without = GuardVerdict.Of(lid, Minute, hasLock: false).Sentence;
        Assert.Equal(needed, without.EndsWith("and the rig has no lock: add a bolt that is read, and the interlock lid-locked", StringComparison.Ordinal));
        Assert.StartsWith(needed ? "the lid must be locked until standstill" : "the lid need not be locked", without, StringComparison.Ordinal);
    }

    [Fact]
    public void A_distance_is_held_against_the_one_that_the_stopping_time_asks_for()
    {
        GuardDefinition far = Lid with { Distance = 0.52, Gap = 0.014 };
        Assert.False(GuardVerdict.Of(far, new(0.32), false).NeedsLock);
        GuardVerdict near = GuardVerdict.Of(far with { Distance = 0.5 }, new(0.32), false);
        Assert.True(near.NeedsLock);
        Assert.Contains("ask for 512 mm behind a gap of 14 mm (ISO 13855), and there are 500 mm", near.Sentence, StringComparison.Ordinal);
        Assert.True(GuardVerdict.Of(far with { Distance = 9, Gap = 0.08 }, new(0.32), false).NeedsLock);
    }

    [Fact]
    public void Nothing_declared_counts_as_a_lid_that_must_be_locked()
    {
        Assert.True(GuardVerdict.Of(Lid with { OpeningTime = null }, Minute, true).NeedsLock);
        Assert.True(GuardVerdict.Of(null, Minute, true).NeedsLock);
        Assert.Contains("and the rig has no lock", GuardVerdict.Of(null, Minute, false).Sentence, StringComparison.Ordinal);
    }

    [Trait("Requirement", "SAF-084")]
    [Theory]
    [InlineData(false, true, "opens without a tool")]
    [InlineData(true, false, "coil circuit closed")]
    [InlineData(false, false, "opens without a tool")]
    public void An_auxiliary_release_needs_a_tool_and_opens_the_coil_circuit(bool tool, bool coil, string said)
    {
        GuardVerdict verdict = GuardVerdict.Of(Lid with { Release = new(tool, coil) }, new(0.1), hasLock: true);
        Assert.True(verdict.IsRefused);
        Assert.Contains(said, verdict.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void A_lock_of_whose_release_nobody_has_said_anything_is_said_to_be_one() =>
        Assert.Contains("of whose auxiliary release nobody has said", GuardVerdict.Of(Lid with { Release = null }, Minute, true).Sentence, StringComparison.Ordinal);

    [Trait("Requirement", "SAF-083")]
    [Fact]
    public void An_enclosure_that_a_person_can_enter_is_refused_whatever_else_is_declared_of_it() =>
        Assert.True(GuardVerdict.Of(Screwed with { Kind = GuardKind.Enterable }, new(0.01), hasLock: true).IsRefused);

    [Fact]
    public void A_coast_down_that_took_longer_than_declared_counts_in_place_of_the_declaration()
    {
        Assert.True(GuardVerdict.Of(Screwed, new(60, 61, "r7"), false).IsRefused);
        Assert.Contains("61 s (measured in run r7, and declared as 60 s)", GuardVerdict.Of(Screwed, new(60, 61, "r7"), false).Sentence, StringComparison.Ordinal);
        Assert.False(GuardVerdict.Of(Screwed, new(60, 12, "r7"), false).IsRefused);
        Assert.Equal(60, new StoppingTime(60, double.NaN, "r7").Worst);
    }

    [Fact]
    public void The_lock_of_a_rig_is_its_interlock_on_the_bolt_and_without_a_rotor_nobody_is_kept_away()
    {
        RigDefinition rig = new() { Name = "box", ScanPeriod = TimeSpan.FromSeconds(1), StandstillSpeed = 60, StandstillTime = TimeSpan.FromSeconds(1), Devices = [], Interlocks = [] };
        GuardVerdict verdict = GuardVerdict.Of(rig, Articles.Disc)!;
        Assert.Equal("box with disc-180: the lid must be locked until standstill, since nobody has declared under `guard:` what keeps people from the rotor, and the rig has no lock: add a bolt that is read, and the interlock lid-locked", verdict.Sentence);
        Assert.Null(GuardVerdict.Of(rig, Articles.MotorAlone));
    }
}
