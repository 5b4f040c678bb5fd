using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Model.Records;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Figures;

/// <summary>Figures that are asked at something, and those that stand on the pack's rested voltage, against the modelled bench or a closed form.</summary>
public class AskedFiguresTests
{
    private const double Rpm = 30 / Math.PI;

    private static readonly BenchRecord Disc = new(new BenchParameters { StateOfCharge = 0.7 });

    [Fact]
    public void The_speed_at_a_stated_time_after_the_stop_is_the_bench_s_own()
    {
        double truth = Disc.Truth.First(t => t.Time >= BenchRecord.Stop + 4).Speed;
        Holds(truth * Rpm, Disc.Figure("speed-after", new AskedAt { After = 4 }), "rpm", 0.01);
        Holds(Disc.Parameters.Rotor.Energy(truth), Disc.Figure("energy-after", new AskedAt { After = 4 }), "J", 0.02);
    }

    [Theory]
    [InlineData("speed-after", "no time after the stop output")]
    [InlineData("energy-after", "no time after the stop output")]
    [InlineData("time-to-speed", "no speed is stated")]
    [InlineData("match-share", "no length and duty")]
    public void A_figure_that_is_asked_at_something_says_what_is_not_stated(string name, string reason)
    {
        Figure figure = Disc.Figure(name);
        Assert.Null(figure.Value);
        Assert.Contains(reason, figure.Note, StringComparison.Ordinal);
        Assert.Contains(FigureCatalog.Needs(name)!.Asked, part => !AskedAt.Nothing.States(part));
    }

    [Theory]
    [InlineData(2000)]
    [InlineData(4000)]
    [InlineData(6000)]
    public void The_time_to_a_stated_speed_is_the_bench_s_own(double rpm) =>
        Holds(Disc.SinceDemand(t => t.Speed * Rpm >= rpm, BenchRecord.Stop), Disc.Figure("time-to-speed", new AskedAt { ToSpeed = rpm }), "s", 0.03);

    /// <summary>Source: derived; a first-order rise reaches the share x after −ln(1 − x) time constants.</summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(0.8)]
    [InlineData(0.95)]
    public void The_time_to_a_stated_speed_of_a_first_order_rise_follows(double share) =>
        Holds(-0.5 * Math.Log(1 - share), FirstOrder(new AskedAt { ToSpeed = share * 9000 }, "time-to-speed"), "s", 0.02);

    /// <summary>The less readings scatter, the narrower is the valley that the search has to find.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(0.1)]
    [InlineData(0.5)]
    [InlineData(30)]
    public void However_little_the_readings_of_a_rise_scatter_its_time_constant_is_found(double scatter) =>
        Holds(0.5, FirstOrder(AskedAt.Nothing, "time-constant", scatter), "s", 0.05);

    [Fact]
    public void A_speed_that_the_rise_never_reaches_is_said_so() =>
        Assert.Contains("the fitted rise reaches only", FirstOrder(new AskedAt { ToSpeed = 9900 }, "time-to-speed").Note, StringComparison.Ordinal);

    /// <summary>Source: derived; a first-order rise is within the share x after −ln x time constants.</summary>
    [Theory]
    [InlineData(0.01)]
    [InlineData(0.02)]
    [InlineData(0.1)]
    public void The_settling_time_of_a_first_order_rise_follows(double within) =>
        Holds(-0.5 * Math.Log(within), FirstOrder(new AskedAt { SettledWithin = within }, "settling-time"), "s", 0.02);

    /// <summary>Source: derived; a speed above the final one by a tenth, which falls with a time constant of 0.4 s, is within 2 % after 0.4 ln 5 s.</summary>
    [Fact]
    public void A_speed_that_overshoots_has_settled_once_it_is_back()
    {
        SplitMix chance = new(3);
        double Speed(double t) => t < 1 ? 0 : t < 1.5 ? 2 * 1.1 * 9000 * (t - 1) : t < 10 ? 9000 * (1 + 0.1 * Math.Exp(-(t - 1.5) / 0.4)) : 0;
        Figure figure = new MadeTrace().Channel("rotor.speed", "rpm", t => Speed(t) + (t is > 1.01 and < 10 ? 3 * chance.Bell() : 0), to: 12).Repeat(1, 4, 10, 12).Figure("settling-time");
        Holds(0.5 + 0.4 * Math.Log(5), figure, "s", 0.02);
        Assert.Contains("within 2 % of 9000 rpm", figure.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void The_settling_time_of_the_bench_s_disc_is_its_own()
    {
        double steady = Disc.Figure("steady-speed").Value!.Value;
        Holds(Disc.SinceDemand(t => Math.Abs(t.Speed * Rpm - steady) <= 0.02 * steady, BenchRecord.Stop), Disc.Figure("settling-time"), "s", 0.05);
    }

    [Fact]
    public void A_speed_that_never_settles_has_no_settling_time() => Assert.Contains(
        "never stayed within 2 %", new MadeTrace().Channel("rotor.speed", "rpm", t => t < 1 ? 0 : 5000 + 300 * Math.Sin(8 * t) + 100 * (t - 1)).Repeat(1, 4, 10, 12).Figure("settling-time").Note, StringComparison.Ordinal);

    [Fact]
    public void The_sag_is_from_the_rested_voltage_to_the_lowest()
    {
        double rested = Disc.Parameters.Pack.OpenCircuitVoltage(Disc.Truth.First(t => t.Time >= BenchRecord.Rise).StateOfCharge), lowest = Disc.Truth.Min(t => t.PackVoltage);
        Holds(rested - lowest, Disc.Figure("voltage-sag"), "V", 0.03);
    }

    /// <summary>The bench has the same chart: what is tested is the way back, and that the interval is as wide as charts differ.</summary>
    [Theory]
    [InlineData(0.9)]
    [InlineData(0.5)]
    [InlineData(0.15)]
    public void The_state_of_charge_at_rest_is_told_as_well_as_a_chart_tells_it(double charge)
    {
        Figure figure = new BenchRecord(new BenchParameters { StateOfCharge = charge }, until: 8).Figure("state-of-charge");
        Assert.True(figure.Value is not null, figure.Note);
        Near.Absolute(100 * charge, figure.Value.Value, 3);
        // 0.05 V either way on the chart, which is flat in the middle.
        double flat = (Pack.CellVoltage(charge + 0.05) - Pack.CellVoltage(charge - 0.05)) / 10;
        Assert.InRange(figure.StandardUncertainty!.Value, 0.5 * 0.029 / flat, 2 * 0.029 / flat);
        Assert.InRange(100 * charge, figure.Interval95!.Value.Low, figure.Interval95.Value.High);
        Assert.Contains("no source", figure.Note, StringComparison.Ordinal);
        Assert.Equal("chart of the rested voltage", figure.Budget[0].Name);
    }

    [Theory]
    [InlineData("LiFePO4", 3, "LiPo cells only, not for LiFePO4")]
    [InlineData("LiPo", 2, "check the declared cells")]
    [InlineData("LiPo", 4, "check the declared cells")]
    public void Another_chemistry_or_a_wrong_number_of_cells_has_no_state_of_charge(string chemistry, int cells, string reason)
    {
        Model.Rig.Article article = Disc.Declared with { Pack = new Model.Rig.Pack(cells, chemistry, 1.3, 0.03) };
        Figure figure = FigureCatalog.Compute(["state-of-charge"], Disc.Input() with { Article = article }).Single();
        Assert.Null(figure.Value);
        Assert.Contains(reason, figure.Note, StringComparison.Ordinal);
    }

    /// <summary>Source: Kt = 60 / (2 π Kv), derived.</summary>
    [Fact]
    public void The_torque_constant_is_the_bench_s_own_and_as_well_known_as_kv()
    {
        Figure constant = Disc.Figure("torque-constant"), kv = Disc.Figure("motor-kv");
        Holds(Disc.Parameters.Motor.TorqueConstant, constant, "N.m/A", 0.02);
        Near.Relative(kv.StandardUncertainty!.Value / kv.Value!.Value, constant.StandardUncertainty!.Value / constant.Value!.Value, 0.05);
        Near.Relative(60 / (2 * Math.PI * kv.Value.Value), constant.Value.Value, 1e-3);
        Assert.NotEmpty(constant.Budget);
    }

    /// <summary>Source: derived; 20 A for 60 % of 180 s is 0.6 Ah. Common practice, no source: a match is about three minutes.</summary>
    [Fact]
    public void The_share_of_a_match_is_told_with_what_is_left_of_the_pack()
    {
        Figure share = Load(20, 180, 0.6, known: 0.05);
        Holds(100 * 0.6 / 1.3, share, "%", 0.06);
        Near.Relative(100 * 0.6 / 1.3, share.Value!.Value, 1e-3);
        Assert.Contains("the pack lasts a match of 180 s with the output on for 60 % of it: 54 % are left", share.Note, StringComparison.Ordinal);
        Assert.Contains("margin of", share.Note, StringComparison.Ordinal);
        Near.Relative(0.05, share.StandardUncertainty!.Value / share.Value.Value, 0.1);
        Assert.Contains(share.Budget, b => b.Name == "capacity");
    }

    [Theory]
    [InlineData(60, 300, 0.6, "does not last")]
    [InlineData(20, 390, 0.6, "too close to call")]
    public void A_pack_that_is_too_small_or_nearly_so_is_told(double amperes, double length, double duty, string words) =>
        Assert.Contains(words, Load(amperes, length, duty, known: 0.05).Note, StringComparison.Ordinal);

    [Fact]
    public void A_pack_that_is_empty_before_the_end_is_told_when() =>
        Assert.Contains("empty after 130 s", Load(60, 300, 0.6, known: 0.02).Note, StringComparison.Ordinal);

    // A load that is on from 10 s to 80 s.
    private static Figure Load(double amperes, double length, double duty, double known) => FigureCatalog.Compute(
        ["match-share"], new FigureInput(
            new MadeTrace().Channel("battery.current", "A", t => t is >= 10 and < 80 ? amperes : 0, to: 90).Repeat(10, 20, 80, 90).Build(),
            Articles.Disc with { Uncertainty = new Dictionary<string, double> { ["capacity"] = known } }, FigureContext.UsualRestSpeed)
        { Asked = new AskedAt { Match = length, Duty = duty } }).Single();

    // From 1 s on with a time constant of 0.5 s to 9000 rpm.
    private static Figure FirstOrder(AskedAt asked, string name, double scatter = 3)
    {
        SplitMix chance = new(9);
        MadeTrace trace = new MadeTrace().Channel("rotor.speed", "rpm", t => t < 1 ? 0 : 9000 * (1 - Math.Exp(-(t - 1) / 0.5)) + (t > 1.01 ? scatter * chance.Bell() : 0), to: 10).Repeat(1, 5, 10, 10);
        return FigureCatalog.Compute([name], new FigureInput(trace.Build(), Articles.Disc, FigureContext.UsualRestSpeed) { Asked = asked }).Single();
    }

    private static void Holds(double truth, Figure figure, string unit, double share)
    {
        Assert.True(figure.Value is not null, figure.Note);
        Assert.Equal(unit, figure.Unit);
        Near.Relative(truth, figure.Value.Value, share, figure.Name);
        Near.Absolute(truth, figure.Value.Value, 4 * figure.StandardUncertainty!.Value + 1e-9, figure.Name);
        Assert.InRange(figure.StandardUncertainty.Value, 0, share * truth);
        Assert.NotEmpty(figure.Budget);
    }
}
