using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Cli.Rehearsals;
using RigControl.Documents;
using RigControl.Model.Records;

namespace RigControl.Cli.Tests.Rehearsals;

/// <summary>What a run measured goes into the article's file, and nothing else of the file changes.</summary>
public class AdoptionTests
{
    private const string Article = """
        # my disc
        article: disc-180
        controller:
          mode: one-way
          stop: 1000 us
          minimum: 1000 us
          maximum: 2000 us
          direction: longer
          brakes-at-stop: no
          when-pulses-cease: stops
          arming-time: 2 s
        rotor: { mass: 180 g, tip-radius: 45 mm, inertia: 0.00018225 kg.m2, maximum-speed: 10000 rpm }
        motor: { kv: 1000 rpm/V, winding-resistance: 80 mOhm, no-load-current: 1.2 A, current-limit: 30 A }   # as sold
        pack:
          chemistry: LiPo
          cells: 3S
          capacity: 1300 mAh
          resistance: 30 mOhm
        stopping-time: 0.5 s
        longest-coast-down: 60 s
        fastest-rise: 0.5 s
        """;

    private static readonly RunHeader Run = new()
    {
        Run = "abc23", StartedAt = new DateTimeOffset(2026, 11, 26, 9, 0, 0, TimeSpan.Zero), Simulated = false, Seed = 1, Operator = "o", Software = "1",
        Procedure = new("p", ""), Rig = new("r", ""), Article = new("a", ""), Plugins = [], Devices = [], Interlocks = [], Channels = [],
    };

    private static Figure Figure(string name, double value, string unit, double uncertainty, int repeat = 1) =>
        new(name, value, unit, uncertainty, null, repeat, "test", null);

    private static Adoption Adopt(string text, params Figure[] figures) => Adoption.Of(text, Run, figures, "disc.yaml");

    [Fact]
    public void A_measured_constant_takes_the_place_of_the_declared_one_with_its_uncertainty_and_a_line_of_history()
    {
        Adoption adoption = Adopt(Article, Figure("motor-kv", 1013.4, "rpm/V", 5.07));
        Assert.Equal(["kv: 1000 rpm/V becomes 1013.4 rpm/V, known to 0.5 %"], adoption.Changes);
        Assert.Contains("motor: { kv: 1013.4 rpm/V, winding-resistance: 80 mOhm, no-load-current: 1.2 A, current-limit: 30 A }   # as sold", adoption.Text, StringComparison.Ordinal);
        Assert.EndsWith("# 2026-11-26, run abc23: kv: 1000 rpm/V becomes 1013.4 rpm/V, known to 0.5 %\n", adoption.Text, StringComparison.Ordinal);
        var read = DocumentReader.ReadArticle(adoption.Text, "disc.yaml").Value!;
        Assert.Equal(1013.4, read.Motor!.SpeedConstant);
        Assert.Equal(0.005, read.Uncertainty["kv"], 1e-5);
    }

    [Fact]
    public void A_section_over_several_lines_is_found_as_well_and_a_key_of_another_section_is_left_alone()
    {
        Adoption adoption = Adopt(Article, Figure("pack-resistance", 0.0412, "Ohm", 0.0008));
        Assert.Contains("  resistance: 0.04120 Ohm", adoption.Text, StringComparison.Ordinal);
        Assert.Contains("winding-resistance: 80 mOhm", adoption.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Adopting_again_keeps_the_history_and_one_statement_of_each_uncertainty()
    {
        string once = Adopt(Article, Figure("motor-kv", 1013, "rpm/V", 5), Figure("pack-resistance", 0.04, "Ohm", 0.001)).Text;
        string twice = Adopt(once, Figure("motor-kv", 1005, "rpm/V", 2)).Text;
        Assert.Equal(3, twice.Split("# 2026-11-26, run abc23").Length - 1);
        Assert.Single(twice.Split('\n'), l => l.StartsWith("uncertainty:", StringComparison.Ordinal));
        var read = DocumentReader.ReadArticle(twice, "disc.yaml").Value!;
        Assert.Equal((2, 1005.0), (read.Uncertainty.Count, read.Motor!.SpeedConstant));
    }

    [Fact]
    public void Repeats_that_scatter_more_than_each_is_known_to_make_the_uncertainty()
    {
        Adoption adoption = Adopt(Article, Figure("motor-kv", 980, "rpm/V", 1), Figure("motor-kv", 1000, "rpm/V", 1, 2), Figure("motor-kv", 1020, "rpm/V", 1, 3));
        // 20 rpm/V between repeats, over the root of three.
        Assert.Equal(0.01155, DocumentReader.ReadArticle(adoption.Text, "f").Value!.Uncertainty["kv"], 1e-4);
    }

    /// <summary>Source: derived; a voltage known to 2 % leaves Kv known to 2 %, however many repeats agree.</summary>
    [Fact]
    public void What_all_repeats_share_is_written_whole()
    {
        Figure[] repeats = [.. Enumerable.Range(1, 4).Select(i => Figure("motor-kv", 1000, "rpm/V", 20, i) with { Budget = [new("calibration of battery.voltage", 20, 1)] })];
        Assert.Equal(0.02, DocumentReader.ReadArticle(Adopt(Article, repeats).Text, "f").Value!.Uncertainty["kv"], 1e-4);
    }

    /// <summary>Source: IEC 60228, 0.00393 per kelvin; 0.0900 Ohm at 50 degC are 0.0805 Ohm at 20 degC.</summary>
    [Fact]
    public void A_warm_winding_s_resistance_is_written_as_it_is_at_20_degC_with_what_its_warmth_leaves_open()
    {
        Adoption adoption = Adoption.Of(Article, Run, [Figure("winding-resistance", 0.09, "Ohm", 0.0009)], "disc.yaml", new Measured(50, 5));
        var read = DocumentReader.ReadArticle(adoption.Text, "disc.yaml").Value!;
        Assert.Equal(0.09 / (1 + 0.00393 * 30), read.Motor!.WindingResistance, 1e-4);
        // A percent of the resistance, and 5 K at 0.00393 over 1.118.
        Assert.Equal(Math.Sqrt(0.01 * 0.01 + 0.0176 * 0.0176), read.Uncertainty["winding-resistance"], 1e-3);
        Assert.Contains("with the winding at 50 degC; at 20 degC as an article means it", Assert.Single(adoption.Changes), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_the_warmth_of_the_winding_its_resistance_is_left_and_the_rest_is_written()
    {
        Figure[] figures = [Figure("winding-resistance", 0.09, "Ohm", 0.0009), Figure("motor-kv", 1013.4, "rpm/V", 5.07)];
        Adoption adoption = Adopt(Article, figures);
        Assert.Contains("winding-resistance: 80 mOhm", adoption.Text, StringComparison.Ordinal);
        Assert.Contains("does not tell how warm the winding was; record motor.temperature", Assert.Single(adoption.Left), StringComparison.Ordinal);
        Assert.Single(adoption.Changes);
        Assert.Contains("how warm the winding was", Assert.Throws<CliException>(() => Adopt(Article, figures[..1])).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_winding_is_taken_for_hotter_than_its_sensor_by_up_to_what_that_has_risen()
    {
        double[] times = [.. Enumerable.Range(0, 101).Select(i => (double)i)];
        Trace Of(string channel) => new(
            new Dictionary<string, Series> { [channel] = new("degC", 0.1, times, [.. times.Select(t => t < 20 ? 20.0 : 40)]) }, [new Segment(1, 30, 35, 60, 100)]);
        Measured warm = WindingWarmth.Of(Of("motor.temperature"))!;
        Assert.Equal(50, warm.Value, 1e-9);
        Assert.Equal(20 / Math.Sqrt(12), warm.Uncertainty, 1e-9);
        Assert.Null(WindingWarmth.Of(Of("ambient.temperature")));
    }

    [Theory]
    [InlineData("peak-speed", 9000, "rpm")]
    [InlineData("motor-kv", -3, "rpm/V")]
    [InlineData("motor-kv", 105, "rad/s")]
    public void A_run_that_measured_nothing_of_it_changes_nothing(string name, double value, string unit) =>
        Assert.Contains("measured none of", Assert.Throws<CliException>(() => Adopt(Article, Figure(name, value, unit, 1))).Message, StringComparison.Ordinal);

    [Fact]
    public void A_value_that_no_article_may_have_is_never_written() =>
        Assert.Contains("would no longer read", Assert.Throws<CliException>(() => Adopt(Article, Figure("motor-kv", 1e7, "rpm/V", 1e5))).Message, StringComparison.Ordinal);
}
