using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Failsafe;

/// <summary>What a verification leaves out is said, with why: nobody takes it for seen.</summary>
public class UnprovokedTests
{
    private static readonly ToyDevice Board = new("board.level")
    {
        Traits = DeviceTraits.NeverBlocks | DeviceTraits.Simulated | DeviceTraits.DrivesOutput, Facts = new() { ["limits"] = "A1B2" },
    };

    [Trait("Requirement", "SAF-094")]
    [Fact]
    public void Pulses_that_an_output_cannot_leave_out_are_named_as_not_provoked_and_so_are_limits_that_a_board_holds_itself()
    {
        IReadOnlyList<Unprovoked> left = Of(new TestRig { Verifies = VerificationScope.Whole, Devices = { ["board"] = _ => Board } });
        Assert.Contains("what drives the output cannot leave its pulses out under power", Why(left, "pulses-cease"), StringComparison.Ordinal);
        Assert.Contains("the limits at which board stops by itself stood as they were loaded", Why(left, "board-limits"), StringComparison.Ordinal);
    }

    [Trait("Requirement", "SAF-094")]
    [Fact]
    public void What_was_provoked_is_not_named()
    {
        IReadOnlyList<Unprovoked> left = Of(new TestRig { Verifies = VerificationScope.Whole });
        Assert.DoesNotContain(left, n => n.Name is "pulses-cease" or "bench-limits" or "radio-lost");
        Assert.Equal("not made to object: failsafe-confirmed; of the limits of the host a verification lowers over-speed and temperatures alone", Why(left, "interlocks"));
    }

    [Trait("Requirement", "SAF-094")]
    [Theory]
    [InlineData(CeasedPulseBehaviour.RunsOn, "the controller runs on without pulses")]
    [InlineData(CeasedPulseBehaviour.Unknown, "does not say what the controller does without pulses")]
    public void A_controller_that_does_not_stop_without_pulses_or_of_which_nobody_knows_is_named_with_what_stops_it(CeasedPulseBehaviour behaviour, string why)
    {
        Article article = TestRig.SmallDisc with { Controller = TestRig.SmallDisc.Controller with { WhenPulsesCease = behaviour } };
        string said = Why(Of(new TestRig { Verifies = VerificationScope.Whole, Article = article }), "pulses-cease");
        Assert.Contains(why, said, StringComparison.Ordinal);
        Assert.EndsWith("what stops it then is the power cut", said, StringComparison.Ordinal);
    }

    // A receiver that the rig file says is not there is one of which no gate opens; without any, a radio may drive past the rig.
    [Trait("Requirement", "SAF-094")]
    [Fact]
    public void A_radio_is_named_only_where_nothing_could_read_it_and_every_interlock_that_was_not_made_to_object()
    {
        TestRig without = new() { Verifies = VerificationScope.Whole, Renamed = { ["bench"] = new() { ["receiver.pulse"] = "unused.pulse", ["radio.link"] = "unused.link" } } };
        Assert.DoesNotContain(Of(without), n => n.Name == "radio-lost");
        TestRig heated = new() { Verifies = VerificationScope.Whole, Interlocks = { ["more"] = _ => new ToyInterlock() } };
        Assert.StartsWith("not made to object: failsafe-confirmed, more;", Why(Of(heated), "interlocks"), StringComparison.Ordinal);
    }

    private static IReadOnlyList<Unprovoked> Of(TestRig test)
    {
        using AssembledRig rig = test.Assemble(confirm: false);
        return Unprovoked.Of(rig);
    }

    private static string Why(IReadOnlyList<Unprovoked> left, string name) => Assert.Single(left, n => n.Name == name).Why;
}
