using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class KeyTurnedTests
{
    private const string Key = ChannelNames.ArmKey;

    private readonly Bench _bench = new(new KeyTurnedPlugin(), new KeyTurnedOptions());

    [Fact]
    public void A_key_that_is_opened_and_closed_after_the_reset_lets_the_rig_be_armed_and_run()
    {
        Turn();
        foreach (RigState state in (RigState[])[RigState.Idle, RigState.Arming, RigState.SpinUp, RigState.Hold, RigState.CoastDown, RigState.Idle, RigState.Arming])
        {
            _bench.State = state;
            _bench.Scan().Proceeds();
        }

        Assert.Equal("the key was closed after the reset", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-087")]
    [Fact]
    public void A_key_that_has_been_closed_all_along_arms_nothing()
    {
        In(RigState.SafeStop).Scan().Objects(DemandAction.Refuse);
        for (int scan = 0; scan < 100; scan++)
            In(RigState.Idle).Scan().Objects(DemandAction.Refuse);
        Assert.Equal("the key has not been opened and closed since the reset: open it, then close it", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-087")]
    [Fact]
    public void A_key_that_was_turned_before_the_reset_is_turned_again()
    {
        Turn();
        In(RigState.SafeStop).Scan().Objects(DemandAction.Refuse);
        In(RigState.Idle).Scan().Objects(DemandAction.Refuse);
        Turn();
        In(RigState.Arming).Scan().Proceeds();
    }

    [Trait("Requirement", "SAF-087")]
    [Fact]
    public void A_key_that_was_opened_in_safe_stop_and_closed_before_the_reset_counts_for_nothing()
    {
        In(RigState.SafeStop).Set(Key, 0).Scan();
        In(RigState.SafeStop).Set(Key, 1).Scan();
        In(RigState.Idle).Scan().Objects(DemandAction.Refuse);
    }

    // A reset in the very moment in which the key closes: it was never seen open in idle.
    [Trait("Requirement", "SAF-087")]
    [Fact]
    public void A_key_that_closes_in_the_scan_of_the_reset_counts_for_nothing()
    {
        In(RigState.SafeStop).Set(Key, 0).Scan();
        In(RigState.Idle).Set(Key, 1).Scan().Objects(DemandAction.Refuse);
    }

    [Trait("Requirement", "SAF-087")]
    [Theory]
    [InlineData(RigState.Arming)]
    [InlineData(RigState.SpinUp)]
    [InlineData(RigState.Hold)]
    [InlineData(RigState.CoastDown)]
    [InlineData((RigState)77)]
    public void A_key_that_opens_while_it_is_armed_stops_and_does_not_let_go_when_it_closes(RigState state)
    {
        Turn();
        In(state).Set(Key, 0).Scan().Objects(DemandAction.CutPower);
        Assert.Equal("the key is open: board.key reads 0, not 1; close it", _bench.Sentence());
        In(state).Set(Key, 1).Scan().Objects(DemandAction.CutPower);
    }

    [Fact]
    public void In_idle_an_open_key_only_refuses_the_start() => In(RigState.Idle).Set(Key, 0).Scan().Objects(DemandAction.Refuse);

    [Trait("Requirement", "SAF-087")]
    [Fact]
    public void A_key_that_bounces_between_two_scans_is_open()
    {
        Turn();
        In(RigState.Hold).Spread(Key, last: 1, minimum: 0, maximum: 1).Scan().Objects(DemandAction.CutPower);
    }

    [Trait("Requirement", "SAF-087")]
    [Theory]
    [InlineData(RigState.Idle)]
    [InlineData(RigState.Hold)]
    public void A_key_that_cannot_be_read_objects_in_full(RigState state)
    {
        Turn();
        In(state).Bad(Key, BadCause.TooOld).Scan().Objects(DemandAction.CutPower);
    }

    [Trait("Requirement", "SAF-087")]
    [Theory]
    [InlineData(RigState.SafeStop)]
    [InlineData(RigState.Idle)]
    public void A_key_that_could_not_be_read_for_a_while_is_turned_again(RigState state)
    {
        Turn();
        In(state).Bad(Key, BadCause.TooOld).Scan().Objects();
        In(RigState.Idle).Set(Key, 1).Scan().Objects(DemandAction.Refuse);
        Turn();
    }

    private void Turn()
    {
        In(RigState.Idle).Set(Key, 0).Scan().Objects(DemandAction.Refuse);
        In(RigState.Idle).Set(Key, 1).Scan().Proceeds();
    }

    private Bench In(RigState state)
    {
        _bench.State = state;
        return _bench;
    }
}
