namespace RigControl.Physics.Tests;

public class BenchParametersTests
{
    private static readonly BenchParameters Good = new();

    public static TheoryData<string, BenchParameters> Impossible => new()
    {
        { "rotor's inertia", Good with { Rotor = Good.Rotor with { Inertia = 0 } } },
        { "rotor's windage share", Good with { Rotor = Good.Rotor with { WindageShare = -1 } } },
        { "rotor's constant drag", Good with { Rotor = Good.Rotor with { Drag = new Drag(-1, 0, 0, 0) } } },
        { "motor's Kv", Good with { Motor = Good.Motor with { SpeedConstant = 0 } } },
        { "motor's resistance", Good with { Motor = Good.Motor with { Resistance = double.NaN } } },
        { "controller's current limit", Good with { Controller = Good.Controller with { CurrentLimit = 0 } } },
        { "controller's maximum pulse", Good with { Controller = Good.Controller with { MaximumPulse = 900 } } },
        { "controller's stop pulse", Good with { Controller = Good.Controller with { StopPulse = 900 } } },
        { "pack's number of cells", Good with { Pack = Good.Pack with { Cells = 0 } } },
        { "pack's resistance", Good with { Pack = Good.Pack with { Resistance = double.PositiveInfinity } } },
        { "pack's state of charge", Good with { StateOfCharge = 1.1 } },
        { "controller's heat inner capacity", Good with { ControllerHeat = Good.ControllerHeat with { InnerCapacity = 0 } } },
        { "bolt's releasing time", Good with { Enclosure = Good.Enclosure with { BoltReleasing = -0.1 } } },
        { "tachometer's timer tick", Good with { Tachometer = Good.Tachometer with { TimerTick = 0 } } },
        { "ambient temperature", Good with { AmbientTemperature = double.NaN } },
        { "ambient temperature", Good with { AmbientTemperature = -300 } },
    };

    [Theory, MemberData(nameof(Impossible))]
    public void A_value_that_no_bench_can_have_is_named(string name, BenchParameters parameters)
    {
        var refusal = Assert.Throws<ArgumentException>(() => new Bench(parameters, 1));
        Assert.Contains(name, refusal.Message, StringComparison.Ordinal);
        Assert.Contains("; write a number", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_defaults_make_a_bench() => Assert.Equal(0, new Bench(Good, 1).Truth.Time);

    [Fact]
    public void The_disc_weighs_and_measures_what_its_name_says()
    {
        double disc = Body.Disc(0.180, 0.045).Inertia;
        Assert.InRange(Good.Rotor.Inertia, disc, 1.05 * disc);
        Assert.Equal(0.045, Good.Rotor.TipRadius);
    }
}
