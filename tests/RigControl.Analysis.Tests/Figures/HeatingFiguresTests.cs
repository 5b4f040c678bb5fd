using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Figures;

/// <summary>A pack of 50 mOhm behind 4 K/W with a time constant of 100 s, loaded with 20 A for 200 s at surroundings of 20 degC.</summary>
public class HeatingFiguresTests
{
    private const double Ohm = 0.05, PerWatt = 4, TimeConstant = 100, Load = 20, Room = 20;
    private const string Channel = "battery.temperature";

    private static readonly double Long = Load * Load * Ohm * PerWatt;

    [Fact]
    public void A_pack_gives_back_its_thermal_resistance() => Holds(PerWatt, Of("thermal-resistance"), "K/W");

    /// <summary>Source: derived; a first-order rise reaches the share 1 − exp(−t/τ).</summary>
    [Fact]
    public void The_time_to_a_stated_limit_follows() => Holds(-TimeConstant * Math.Log(1 - 40 / Long), Of("time-to-limit", (Channel, 60)), "s");

    /// <summary>Source: derived; heat goes with the square of the current.</summary>
    [Fact]
    public void The_current_that_it_bears_for_ever_follows() => Holds(Load * Math.Sqrt(40 / Long), Of("continuous-current", (Channel, 60)), "A");

    /// <summary>Source: derived; what counts is by how much the part may rise above its surroundings, wherever it was run.</summary>
    [Theory]
    [InlineData(35)]
    [InlineData(5)]
    public void Time_and_current_to_a_limit_are_those_of_the_surroundings_that_are_stated(double around)
    {
        AskedAt asked = new() { Ambient = around };
        Figure time = Of("time-to-limit", asked, (Channel, 60)), current = Of("continuous-current", asked, (Channel, 60));
        Holds(-TimeConstant * Math.Log(1 - (60 - around) / Long), time, "s");
        Holds(Load * Math.Sqrt((60 - around) / Long), current, "A");
        Assert.Contains($"from {around} degC as stated", time.Note, StringComparison.Ordinal);
        Assert.Contains($"surroundings of {around} degC as stated", current.Note, StringComparison.Ordinal);
        Assert.NotEmpty(time.Budget);
    }

    [Fact]
    public void Surroundings_as_warm_as_the_limit_leave_no_time_to_it() =>
        Assert.Contains("as warm as the limit", Of("time-to-limit", new AskedAt { Ambient = 60 }, (Channel, 60)).Note, StringComparison.Ordinal);

    [Fact]
    public void Without_a_stated_limit_there_is_no_time_to_it() => Assert.Contains("no limit is stated", Of("time-to-limit").Note, StringComparison.Ordinal);

    [Fact]
    public void A_limit_that_is_never_reached_is_said_so() => Assert.Contains("never gets so warm", Of("time-to-limit", (Channel, 200)).Note, StringComparison.Ordinal);

    [Fact]
    public void A_part_whose_resistance_nobody_knows_has_no_thermal_resistance() =>
        Assert.Contains("no resistance is known", Trace().Channel("controller.temperature", "degC", Warm, 0, 600, 1).Figures("thermal-resistance").Last().Note, StringComparison.Ordinal);

    [Fact]
    public void A_motor_held_at_one_level_has_the_resistance_that_its_article_declares_and_says_so()
    {
        Figure motor = OfMotor(OnMotor(Trace().Channel("motor.temperature", "degC", t => Room + Little * (Warm(t) - Room), 0, 600, 1), rpm: 0), Articles.Disc);
        Near.Relative(Little * Long / (Load * Load * Articles.Disc.Motor!.WindingResistance), motor.Value!.Value, 0.03, motor.Name);
        Assert.Contains("winding resistance as declared", motor.Note, StringComparison.Ordinal);
    }

    /// <summary>Source: derived; a winding that loses its heat through twice the conductance of its case stands half of the case's rise above it, and copper gains 0.393 % of its resistance at 20 degC a kelvin.</summary>
    [Fact]
    public void A_winding_that_warms_counts_with_the_resistance_that_it_has_then()
    {
        const double perWatt = 2, ohm = 0.1;
        HeatState state = new(Room, Room);
        Physics.Heat heat = new(5, 40, 2 / perWatt, 1 / perWatt);
        double[] sensor = new double[601];
        for (int second = 0; second <= 600; second++)
        {
            sensor[second] = state.Outer;
            for (int i = 0; i < 10; i++)
                state.Advance(heat, On(second) * On(second) * ohm * (1 + 0.00393 * (state.Inner - 20)), 0, Room, 0.1);
        }

        Figure motor = OfMotor(OnMotor(Trace().Channel("motor.temperature", "degC", t => sensor[(int)Math.Round(t)], 0, 600, 1), rpm: 0), Declaring(ohm));
        Assert.InRange(sensor.Max(), 100, 200);
        // Counted cold it would be more than a third too high; how much hotter the winding is than its sensor nobody sees, and the budget says so.
        Near.Absolute(perWatt, motor.Value!.Value, 2 * motor.StandardUncertainty!.Value, motor.Name);
        Assert.InRange(motor.StandardUncertainty.Value / perWatt, 0.03, 0.12);
        Assert.Contains(motor.Budget!, b => b.Name == SharedPart.HotterWinding && b.Share > 0.5);
    }

    /// <summary>Source: derived; at 10,000 rpm a motor of 1000 rpm/V and 1.2 A of no-load current loses 12 W, here beside 40 W in 0.1 ohm.</summary>
    [Fact]
    public void What_a_motor_loses_at_no_load_warms_it_too_and_is_not_taken_for_its_resistance()
    {
        MadeTrace trace = OnMotor(Trace().Channel("motor.temperature", "degC", t => Room + Little * (Warm(t) - Room), 0, 600, 1), rpm: 10_000);
        Figure motor = OfMotor(trace, Articles.Disc);
        Near.Relative(Little * Long / (Load * Load * 0.1 + 12), motor.Value!.Value, 0.03, motor.Name);
        Assert.Contains("losses at no load as declared", motor.Note, StringComparison.Ordinal);
        Figure unsure = OfMotor(trace, Articles.Disc with { Uncertainty = new Dictionary<string, double> { ["no-load-current"] = 0.5 } });
        Near.Relative(0.5 * 12 / 52, unsure.StandardUncertainty!.Value / unsure.Value!.Value, 0.05);
        Assert.Contains("no article declares", OfMotor(trace, null).Note, StringComparison.Ordinal);
    }

    // So little that copper hardly changes.
    private const double Little = 0.05;

    private static MadeTrace OnMotor(MadeTrace trace, double rpm) => trace
        .Channel("output.throttle", "%", t => On(t) > 0 ? 100 : 0, 0, 600, 0.1).Channel("rotor.speed", "rpm", t => On(t) > 0 ? rpm : 0, 0, 600, 0.1);

    private static RigControl.Model.Rig.Article Declaring(double ohm) => Articles.Disc with { Motor = Articles.Disc.Motor! with { WindingResistance = ohm } };

    private static Figure OfMotor(MadeTrace trace, RigControl.Model.Rig.Article? article) => FigureCatalog
        .Compute(["thermal-resistance"], new FigureInput(trace.Build(), article, FigureContext.UsualRestSpeed)).Single(f => f.Method.Contains("motor.temperature", StringComparison.Ordinal));

    /// <summary>A controller may fail below any temperature that a builder states. Common practice, no source.</summary>
    [Fact]
    public void A_current_that_keeps_it_cool_is_not_said_to_keep_it_alive() =>
        Assert.Contains("not how long it lives", Of("continuous-current", (Channel, 60)).Note, StringComparison.Ordinal);

    private static Figure Of(string name, params (string Channel, double Limit)[] limits) => Of(name, AskedAt.Nothing, limits);

    private static Figure Of(string name, AskedAt asked, params (string Channel, double Limit)[] limits) => FigureCatalog.Compute(
        [name], new FigureInput(Trace().Build(), Articles.Disc, FigureContext.UsualRestSpeed) { Asked = asked, TemperatureLimits = limits.ToDictionary(l => l.Channel, l => l.Limit) })
        .Single(f => f.Method.EndsWith(Channel, StringComparison.Ordinal) || f.Method.Contains(Channel + ";", StringComparison.Ordinal));

    private static MadeTrace Trace()
    {
        SplitMix chance = new(17);
        return new MadeTrace()
            .Channel("battery.current", "A", On, 0, 600, 0.1)
            .Channel("battery.voltage", "V", t => 16 - Ohm * On(t), 0, 600, 0.1)
            .Channel(Channel, "degC", t => Warm(t) + 0.05 * chance.Bell(), 0, 600, 1)
            .Channel("ambient.temperature", "degC", _ => Room, 0, 600, 1, resolution: 0.1)
            .Repeat(10, 12, 210, 600);
    }

    private static double On(double t) => t is >= 10 and < 210 ? Load : 0;

    private static double Warm(double t) => Room + Long * (t < 10 ? 0 : t < 210 ? 1 - Math.Exp(-(t - 10) / TimeConstant) : (1 - Math.Exp(-200 / TimeConstant)) * Math.Exp(-(t - 210) / TimeConstant));

    private static void Holds(double truth, Figure figure, string unit)
    {
        Assert.True(figure.Value is not null, figure.Note);
        Assert.Equal(unit, figure.Unit);
        Near.Relative(truth, figure.Value.Value, 0.02, figure.Name);
        Assert.InRange(truth, figure.Value.Value - 4 * figure.StandardUncertainty!.Value, figure.Value.Value + 4 * figure.StandardUncertainty.Value);
    }
}
