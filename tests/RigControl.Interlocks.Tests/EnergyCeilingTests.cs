using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Tests;

public class EnergyCeilingTests
{
    private const string Speed = ChannelNames.RotorSpeed;

    private readonly Bench _bench = new(new EnergyCeilingPlugin(), new EnergyCeilingOptions { Inertia = 0.0002, Limit = 100 });

    [Fact]
    public void A_rotor_at_rest_stores_nothing_and_has_the_whole_margin()
    {
        Assert.Equal(1, _bench.Scan().Proceeds().Margin);
        Assert.Equal("at 0 rpm the rotor stores 0 J, within the ceiling of 100 J", _bench.Sentence());
    }

    // Derived by hand: 6000 rpm is 628.3185 rad/s; half of 0.0002 kg.m2 times its square is 39.4784 J.
    [Fact]
    public void The_energy_is_half_the_inertia_times_the_square_of_the_speed()
    {
        Demand demand = _bench.Set(Speed, 6000).Scan().Proceeds();
        Assert.Equal((39.4784, 0.605216), (Math.Round(demand.Value, 4), Math.Round(demand.Margin, 6)));
        Assert.Equal("at 6000 rpm the rotor stores 39.5 J, within the ceiling of 100 J", _bench.Sentence());
    }

    [Trait("Requirement", "SAF-050")]
    [Fact]
    public void A_rotor_that_stores_more_than_allowed_stops_and_says_at_what_speed()
    {
        Demand demand = _bench.Set(Speed, 9600).Scan().Objects();
        Assert.Equal((EnergyCeiling.TooMuch, 101.065, 100.0), (demand.Reason, Math.Round(demand.Value, 3), demand.Limit));
        Assert.Equal("at 9600 rpm the rotor stores 101.1 J, above the ceiling of 100 J", _bench.Interlock.Explain(demand));
    }

    [Trait("Requirement", "SAF-050")]
    [Fact]
    public void Energy_between_two_scans_and_in_reverse_counts_as_well()
    {
        Demand demand = _bench.Spread(Speed, last: -9000, minimum: -9600, maximum: -8000).Scan().Objects();
        Assert.Equal(_bench.Now - Bench.Seconds(0.003), demand.ShownAt);
    }

    [Fact]
    public void Energy_just_above_the_ceiling_is_never_shown_as_equal_to_it()
    {
        double speed = Math.Sqrt(2 * 100.004 / 0.0002) * 30 / Math.PI;
        Assert.Equal("at 9549 rpm the rotor stores 100.004 J, above the ceiling of 100 J", _bench.Set(Speed, speed).Sentence());
    }

    [Fact]
    public void An_inertia_below_that_of_the_article_s_rotor_is_refused()
    {
        IInterlockPlugin plugin = new EnergyCeilingPlugin();
        InterlockContext context = Bench.ContextFor("energy", rotor: new Rotor(0.0003, 0.045, 0.18, 8500));
        string message = Assert.Throws<OptionException>(() => plugin.Create(new EnergyCeilingOptions { Inertia = 0.0002, Limit = 100 }, context)).Message;
        Assert.Equal("the inertia of 0.0002 kg.m2 of energy is below the 0.0003 kg.m2 of the rotor of disc-180 alone; write at least that", message);
        Assert.NotNull(plugin.Create(new EnergyCeilingOptions { Inertia = 0.0003, Limit = 100 }, context));
    }
}
