using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class RehearsedBandTests
{
    private const string Speed = ChannelNames.RotorSpeed;

    // 10 % of the largest value, 1000 rpm, is 100 rpm of room.
    private readonly Bench _bench = new(new RehearsedBandPlugin(), new RehearsedBandOptions { Channel = Speed, Beyond = 10, For = 0 }) { State = RigState.SpinUp };

    private Demand At(double inStep, double speed)
    {
        _bench.TimeInStep = Bench.Seconds(inStep);
        return _bench.Set(Speed, speed).Scan();
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(0.049, 200)]
    [InlineData(0.05, 100)]
    [InlineData(0.1, 800)]
    [InlineData(0.199, 1100)]
    public void A_run_that_goes_as_rehearsed_goes_on(double inStep, double speed) => At(inStep, speed).Proceeds();

    [Trait("Requirement", "SAF-067")]
    [Theory]
    [InlineData(0, 201)]
    [InlineData(0.05, 501)]
    [InlineData(0.15, 1101)]
    public void A_run_above_its_band_stops_and_says_by_what(double inStep, double speed)
    {
        Demand demand = At(inStep, speed).Objects();
        Assert.Equal((BandInterlock.Above, speed), (demand.Reason, demand.Value));
        Assert.Contains("that the rehearsal allows here", _bench.Interlock.Explain(demand), StringComparison.Ordinal);
    }

    [Trait("Requirement", "SAF-067")]
    [Fact]
    public void A_run_below_its_band_stops()
    {
        Demand demand = At(0.15, 599).Objects();
        Assert.Equal((BandInterlock.Below, 600), (demand.Reason, demand.Limit));
    }

    [Fact]
    public void A_step_that_lasts_longer_than_in_any_rehearsed_run_stops()
    {
        At(0.249, 1000).Proceeds();
        Assert.Equal(BandInterlock.TooLong, At(0.25, 1000).Objects().Reason);
    }

    [Fact]
    public void A_moment_out_of_the_band_is_no_run_that_left_it()
    {
        Bench bench = new(new RehearsedBandPlugin(), new RehearsedBandOptions { Channel = Speed, Beyond = 10, For = 0.1 }) { State = RigState.SpinUp, TimeInStep = Bench.Seconds(0.15) };
        bench.ScanAfter(0.01, Speed, 1300).Proceeds();
        bench.ScanAfter(0.09, Speed, 1300).Proceeds();
        bench.ScanAfter(0.02, Speed, 1300).Objects();
        bench.ScanAfter(0.01, Speed, 1000).Proceeds();
    }

    [Fact]
    public void At_rest_nothing_was_rehearsed_and_nothing_is_held_against_it()
    {
        _bench.State = RigState.Idle;
        At(100, 5000).Proceeds();
    }

    [Fact]
    public void A_run_without_a_rehearsal_cannot_be_armed()
    {
        InterlockContext without = Bench.ContextFor("rehearsed-band") with { Rehearsed = [] };
        IInterlock interlock = ((IInterlockPlugin)new RehearsedBandPlugin()).Create(new RehearsedBandOptions { Channel = Speed, Beyond = 10 }, without);
        InterlockMemory memory = default;
        Demand demand = interlock.Evaluate(new InterlockInput(_bench.Set(Speed, 0).Image, _bench.Now, RigState.Idle, 0, TimeSpan.Zero, 0), ref memory);
        Assert.Equal(DemandAction.Refuse, demand.Action);
        Assert.Equal("rotor.speed has no rehearsal for this run; rehearse it and give the file with --rehearsal", interlock.Explain(demand));
    }

    [Fact]
    public void A_step_that_the_rehearsal_does_not_know_refuses()
    {
        _bench.Step = 1;
        Assert.Equal(DemandAction.Refuse, At(0, 0).Action);
    }
}
