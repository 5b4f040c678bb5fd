using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class FailsafeConfirmedTests
{
    private const string Failsafe = ChannelNames.FailsafeConfirmed;

    private readonly Bench _bench = new(new FailsafeConfirmedPlugin(), new FailsafeConfirmedOptions());

    [Fact]
    public void A_confirmed_failsafe_lets_the_rig_start()
    {
        _bench.Scan().Proceeds();
        Assert.Equal("the failsafe has been confirmed", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-013")]
    [Fact]
    public void A_failsafe_that_nobody_confirmed_objects()
    {
        Demand demand = _bench.Set(Failsafe, 0).Scan().Objects();
        Assert.Equal(1, demand.Limit);
        Assert.Equal("the failsafe has not been confirmed in this session: failsafe.confirmed reads 0, not 1", _bench.Sentence());
    }

    [Fact]
    public void A_confirmation_withdrawn_for_a_moment_objects() =>
        _bench.Spread(Failsafe, last: 1, minimum: 0, maximum: 1).Scan().Objects();

    [Trait("Requirement", "SAF-013")]
    [Fact]
    public void A_confirmation_that_was_never_written_objects()
    {
        _bench.Bad(Failsafe, BadCause.Never).Scan().Objects();
        Assert.Equal("failsafe confirmed has never been read; check that its device is connected", _bench.Sentence());
    }
}
