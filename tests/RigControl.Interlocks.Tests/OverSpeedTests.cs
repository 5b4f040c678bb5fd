using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class OverSpeedTests
{
    private const string Speed = ChannelNames.RotorSpeed;

    private readonly Bench _bench = new(new OverSpeedPlugin(), new OverSpeedOptions { Limit = 9000 });

    [Fact]
    public void A_rotor_below_its_limit_may_go_on()
    {
        Assert.Equal(0.5, _bench.Set(Speed, 4500).Scan().Proceeds().Margin);
        Assert.Equal("rotor 4500 rpm is within the limit of 9000 rpm", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-015")]
    [Fact]
    public void A_rotor_above_its_limit_stops()
    {
        Demand demand = _bench.Set(Speed, 9120).Scan().Objects();
        Assert.Equal((9120.0, 9000.0, Bench.Index(Speed)), (demand.Value, demand.Limit, demand.Channel));
        Assert.Equal("rotor 9120 rpm is above the limit of 9000 rpm", _bench.Interlock.Explain(demand));
    }

    [Fact]
    public void The_limit_itself_is_allowed_and_the_next_number_is_not()
    {
        Assert.Equal(0, _bench.Set(Speed, 9000).Scan().Proceeds().Margin);
        _bench.Set(Speed, Math.BitIncrement(9000.0)).Scan().Objects();
    }

    [Trait("Requirement", "SAF-015")]
    [Fact]
    public void A_peak_between_two_scans_stops_and_says_when()
    {
        Demand demand = _bench.Spread(Speed, last: 8900, minimum: 8800, maximum: 9001).Scan().Objects();
        Assert.Equal((9001.0, _bench.Now - Bench.Seconds(0.004)), (demand.Value, demand.ShownAt));
    }

    [Fact]
    public void A_rotor_that_runs_backwards_too_fast_stops_as_well()
    {
        Demand demand = _bench.Spread(Speed, last: -8000, minimum: -9120, maximum: -7000).Scan().Objects();
        Assert.Equal((-9120.0, _bench.Now - Bench.Seconds(0.003)), (demand.Value, demand.ShownAt));
        Assert.Equal("rotor 9120 rpm in reverse is above the limit of 9000 rpm", _bench.Interlock.Explain(demand));
    }

    [Fact]
    public void A_tachometer_that_froze_stops()
    {
        _bench.Bad(Speed, BadCause.Frozen).Scan().Objects();
        Assert.Equal("rotor speed has not changed for 400 readings, which no live sensor does", _bench.Sentence());
    }

    [Fact]
    public void A_limit_above_what_the_rotor_allows_is_refused_before_anything_turns()
    {
        OverSpeedPlugin plugin = new();
        InterlockContext context = Bench.ContextFor("over-speed", rotor: new Rotor(0.00018225, 0.045, 0.18, 8500));
        string message = Assert.Throws<OptionException>(() => Create(plugin, new OverSpeedOptions { Limit = 9000 }, context)).Message;
        Assert.Equal("the limit of 9000 rpm of over-speed is above the 8500 rpm that the rotor of disc-180 allows", message);
        Assert.NotNull(Create(plugin, new OverSpeedOptions { Limit = 8500 }, context));
    }

    private static IInterlock Create(IInterlockPlugin plugin, OverSpeedOptions options, InterlockContext context) => plugin.Create(options, context);
}
