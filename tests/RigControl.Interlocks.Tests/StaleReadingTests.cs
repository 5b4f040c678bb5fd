using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class StaleReadingTests
{
    private const string Radio = ChannelNames.RadioLink;

    private readonly Bench _bench = new(new StaleReadingPlugin(), new StaleReadingOptions { Channel = Radio, MaximumAge = 0.2 });

    [Fact]
    public void A_fresh_reading_lets_the_rig_go_on_whatever_it_says()
    {
        Demand demand = _bench.Set(Radio, 0).Scan().Proceeds();
        Assert.Equal((0.002, 0.2, 0.99), (demand.Value, demand.Limit, Math.Round(demand.Margin, 12)));
        Assert.Equal(_bench.Now - Bench.Seconds(0.002), demand.ShownAt);
        Assert.Equal("radio link was read within the last 0.2 s", _bench.Sentence());
    }

    [Fact]
    public void A_reading_of_exactly_the_highest_age_is_allowed_with_nothing_left()
    {
        Age(0.2);
        Assert.Equal(0, _bench.Scan().Proceeds().Margin);
    }

    [Trait("Requirement", "SAF-018")]
    [Fact]
    public void A_reading_older_than_that_stops_and_says_since_when()
    {
        Age(0.25);
        Demand demand = _bench.Scan().Objects();
        Assert.Equal(_bench.Now - Bench.Seconds(0.05), demand.ShownAt);
        Assert.Equal("the latest reading of radio link is 0.25 s old; 0.2 s is allowed", _bench.Interlock.Explain(demand));
    }

    [Fact]
    public void A_reading_one_tick_too_old_stops()
    {
        _bench.Image[Bench.Index(Radio)].Age = Bench.Seconds(0.2) + TimeSpan.FromTicks(1);
        Assert.Equal("the latest reading of radio link is 0.2000001 s old; 0.2 s is allowed", _bench.Interlock.Explain(_bench.Scan().Objects()));
    }

    [Fact]
    public void A_reading_from_the_future_is_no_proof()
    {
        Age(-0.001);
        Assert.Equal(_bench.Now, _bench.Scan().Objects().ShownAt);
    }

    [Fact]
    public void A_reading_that_is_bad_stops_however_fresh()
    {
        _bench.Bad(Radio, BadCause.Reported).Scan().Objects();
        Assert.Equal("the device that reads radio link calls its own reading bad", _bench.Sentence());
    }

    private void Age(double seconds) => _bench.Image[Bench.Index(Radio)].Age = Bench.Seconds(seconds);
}
