using RigControl.Cli.Judging;
using RigControl.Model.Rig;
using RigControl.Runtime.Failsafe;

namespace RigControl.Cli.Tests.Judging;

/// <summary>What a proof is worth for the energy of a runaway: never more than was seen.</summary>
public class VerifiedCutTests
{
    [Trait("Requirement", "SAF-082")]
    [Fact]
    public void It_is_as_slow_as_was_seen_and_a_revolution_and_two_scans_more()
    {
        var cut = VerifiedCut.Of(Proof(gone: 0.02), Rig(6000))!;
        Assert.Equal(6000, cut.Limit);
        Assert.Equal(0.02 + 0.01 + 0.01, cut.Reaction.TotalSeconds, 6);
    }

    [Trait("Requirement", "SAF-082")]
    [Fact]
    public void Nothing_is_reduced_by_a_cut_that_nobody_saw()
    {
        Assert.Null(VerifiedCut.Of(null, Rig(6000)));
        Assert.Null(VerifiedCut.Of(Proof(gone: null), Rig(6000)));
        Assert.Null(VerifiedCut.Of(Proof(gone: 0.02, passed: false), Rig(6000)));
        Assert.Null(VerifiedCut.Of(Proof(gone: 0.02, name: "stop"), Rig(6000)));
    }

    [Fact]
    public void A_rig_without_a_limit_on_its_speed_has_no_cut() =>
        Assert.Null(VerifiedCut.Of(Proof(gone: 0.02), Rig(6000) with { Interlocks = [] }));

    [Trait("Requirement", "SAF-082")]
    [Fact]
    public void Of_two_limits_the_one_that_was_provoked_counts_and_not_a_lower_one_that_nobody_saw_act()
    {
        RigDefinition rig = Rig(6000);
        Assert.Equal(6000, VerifiedCut.Of(Proof(gone: 0.02), rig with { Interlocks = [.. rig.Interlocks, .. Rig(4000).Interlocks] })!.Limit);
    }

    [Trait("Requirement", "SAF-082")]
    [Theory]
    [InlineData(DemandAction.StopOutput)]
    [InlineData(DemandAction.Refuse)]
    public void An_over_speed_that_asks_for_less_than_a_cut_cuts_nothing_whatever_the_verification_took_away(DemandAction action)
    {
        Assert.Null(VerifiedCut.Of(Proof(gone: 0.02), With(i => i with { Action = action })));
        Assert.NotNull(VerifiedCut.Of(Proof(gone: 0.02), With(i => i with { Action = DemandAction.CutPower })));
    }

    [Trait("Requirement", "SAF-082")]
    [Fact]
    public void The_speed_of_another_shaft_is_no_bound_on_the_rotor_s()
    {
        Assert.Null(VerifiedCut.Of(Proof(gone: 0.02), With(i => On(i, "wheel.speed"))));
        Assert.NotNull(VerifiedCut.Of(Proof(gone: 0.02), With(i => On(i, "rotor.speed"))));
    }

    private static RigDefinition With(Func<InterlockDefinition, InterlockDefinition> change) => Rig(6000) with { Interlocks = [change(Rig(6000).Interlocks[0])] };

    private static InterlockDefinition On(InterlockDefinition interlock, string channel) =>
        interlock with { Options = new Dictionary<string, object>(interlock.Options) { ["channel"] = channel } };

    private static RigDefinition Rig(double limit) => new()
    {
        Name = "box", ScanPeriod = TimeSpan.FromMilliseconds(5), StandstillSpeed = 60, StandstillTime = TimeSpan.FromSeconds(1), Devices = [],
        Interlocks = [new InterlockDefinition("speed", "over-speed", new Dictionary<string, object> { ["limit"] = limit }, null, null, InterlockScope.EveryStep)],
    };

    private static FailsafeProof Proof(double? gone, bool passed = true, string name = "over-speed") => new()
    {
        Run = "r", MadeAt = DateTimeOffset.UnixEpoch, ValidUntil = DateTimeOffset.UnixEpoch.AddHours(4), Simulated = false, BoundTo = [],
        Provocations = [new ProvocationResult(name, 3, "it stops", "it stopped", 0.01, 0.2, passed, false) { PowerGone = gone }],
    };
}
