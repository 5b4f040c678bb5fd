using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class LidLockedTests
{
    private const string Lock = ChannelNames.EnclosureLock;

    private readonly Bench _bench = new(new LidLockedPlugin(), new LidLockedOptions());

    [Theory]
    [MemberData(nameof(EveryState))]
    public void A_bolt_that_is_home_objects_to_nothing(RigState state)
    {
        _bench.State = state;
        _bench.Scan().Proceeds();
        Assert.Equal("the lid is locked", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-011")]
    [Theory]
    [InlineData(RigState.Arming)]
    [InlineData(RigState.SpinUp)]
    [InlineData(RigState.Hold)]
    [InlineData(RigState.CoastDown)]
    [InlineData(RigState.SafeStop)]
    [InlineData((RigState)77)]
    public void An_unlocked_lid_cuts_the_power_wherever_the_rotor_may_turn(RigState state)
    {
        _bench.State = state;
        _bench.Set(Lock, 0).Scan().Objects();
        Assert.Equal("the lid is not locked: enclosure.lock reads 0, not 1", _bench.Sentence());
    }

    [Fact]
    public void An_unlocked_lid_in_idle_only_refuses_the_start()
    {
        _bench.State = RigState.Idle;
        _bench.Set(Lock, 0).Scan().Objects(DemandAction.Refuse);
    }

    [Trait("Requirement", "SAF-011")]
    [Theory]
    [MemberData(nameof(EveryState))]
    public void A_bolt_that_cannot_be_read_objects_in_full_in_every_state(RigState state)
    {
        _bench.State = state;
        Demand demand = _bench.Bad(Lock, BadCause.TooOld).Scan().Objects();
        Assert.Equal("enclosure lock has had no new reading for longer than 0.1 s", _bench.Interlock.Explain(demand));
    }

    [Fact]
    public void A_bolt_that_slipped_between_two_scans_is_seen()
    {
        Demand demand = _bench.Spread(Lock, last: 1, minimum: 0, maximum: 1).Scan().Objects();
        Assert.Equal(_bench.Now - Bench.Seconds(0.003), demand.ShownAt);
    }

    public static TheoryData<RigState> EveryState() => new(Enum.GetValues<RigState>());
}
