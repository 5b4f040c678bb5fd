using RigControl.Model.Rig;
using RigControl.Physics;
using RigControl.Rehearsal.Bench;
using RigControl.Rehearsal.Runaway;
using Motor = RigControl.Model.Rig.Motor;
using Pack = RigControl.Model.Rig.Pack;

namespace RigControl.Rehearsal.Tests.Runaway;

/// <summary>The runaway case bounds what any bench that may be the real one can do with a controller that ignores everything.</summary>
public class RunawayCaseTests
{
    // Everything known exactly, so that the closed forms below are the whole of it.
    private static readonly Article Exact = Workshop.Disc with
    {
        Uncertainty = new Dictionary<string, double> { ["inertia"] = 0, ["kv"] = 0, ["winding-resistance"] = 0, ["pack-resistance"] = 0 },
    };

    private static double Inertia => BenchOfArticle.Build(Exact, 0, 1, 20).Rotor.Inertia;

    [Fact]
    public void Without_a_cut_the_full_pack_times_kv_is_the_speed()
    {
        RunawayCase worst = RunawayCase.Of(Exact, null);
        Assert.Equal(12_600, worst.Rpm, 1e-6);
        Assert.Equal(0.5 * Inertia * Math.Pow(12_600 * 2 * Math.PI / 60, 2), worst.Energy, 1e-9);
        Assert.Null(worst.Cut);
    }

    [Fact]
    public void What_is_not_known_exactly_counts_at_its_worse_end()
    {
        RunawayCase known = RunawayCase.Of(Exact, null);
        RunawayCase unknown = RunawayCase.Of(Workshop.Disc, null);
        // Two standard uncertainties: 2 × 3 % of Kv and 2 × 2 % of the inertia.
        Assert.Equal(known.Rpm * 1.06, unknown.Rpm, 1e-6);
        Assert.Equal(known.Energy * 1.06 * 1.06 * 1.04, unknown.Energy, 1e-9);
    }

    [Fact]
    public void A_cut_leaves_its_speed_and_what_the_rotor_gains_until_the_power_is_off()
    {
        RunawayCase worst = RunawayCase.Of(Exact, new OverSpeedCut(6000, TimeSpan.FromMilliseconds(30)));
        double constant = 60 / (2 * Math.PI * 1000), limit = 6000 * 2 * Math.PI / 60;
        double acceleration = constant * (12.6 - constant * limit) / (0.08 + 0.03) / Inertia;
        Assert.Equal(limit + acceleration * 0.03, worst.Speed, 1e-9);
        Assert.Equal(6000, worst.Cut!.Limit);
    }

    [Theory]
    [InlineData(13_000, 0.0)]
    [InlineData(6000, 10.0)]
    public void A_cut_that_acts_too_high_or_too_late_reduces_nothing(double limit, double seconds)
    {
        RunawayCase worst = RunawayCase.Of(Exact, new OverSpeedCut(limit, TimeSpan.FromSeconds(seconds)));
        Assert.Equal(RunawayCase.Of(Exact, null), worst);
    }

    [Trait("Requirement", "SAF-082")]
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void No_bench_that_may_be_the_real_one_runs_further_away(bool cut)
    {
        OverSpeedCut? over = cut ? new OverSpeedCut(5000, TimeSpan.FromMilliseconds(50)) : null;
        RunawayCase worst = RunawayCase.Of(Workshop.Disc, over);
        int beyond = 0;
        for (ulong seed = 1; seed <= 60; seed++)
        {
            BenchParameters drawn = BenchDraw.Draw(BenchOfArticle.Build(Workshop.Disc, 1, 1, 20), Spread.Of(Workshop.Disc.Uncertainty), seed);
            if (Farthest(drawn, over) > worst.Energy)
                beyond++;
        }

        // Drag and windage hold the benches well below the case that has none.
        Assert.Equal(0, beyond);
    }

    [Theory]
    [InlineData("LiHV", 13.05)]
    [InlineData("LiFePO4", 10.95)]
    [InlineData("NiMH", 4.8)]
    [InlineData("lead-acid", 7.35)]
    [InlineData("something new", 13.05)]
    public void A_pack_is_as_full_as_its_charger_makes_it(string chemistry, double volts) =>
        Assert.Equal(volts, RunawayCase.FullVoltage(new Pack(3, chemistry, 1.3, 0.03)), 1e-9);

    [Fact]
    public void What_an_article_lacks_is_said_by_its_name()
    {
        Assert.Equal("no rotor", RunawayCase.Lack(Exact with { Rotor = null }));
        Assert.Equal("no motor", RunawayCase.Lack(Exact with { Motor = null }));
        Assert.Equal("no pack", RunawayCase.Lack(Exact with { Pack = null }));
        Assert.Null(RunawayCase.Lack(Exact));
        Assert.Throws<ArgumentException>(() => RunawayCase.Of(Exact with { Pack = null }, null));
    }

    // The plant itself, with a controller that connects supply and windings straight through.
    private static double Farthest(BenchParameters parameters, OverSpeedCut? cut)
    {
        Physics.Bench bench = new(parameters, 1);
        bench.Faults.ControllerShorted = true;
        double most = 0, caughtAt = double.PositiveInfinity;
        for (double at = 0; at < 5; at += 0.001)
        {
            bool powered = at < caughtAt + (cut?.Reaction.TotalSeconds ?? 0) - parameters.Enclosure.ContactorOpening;
            bench.Step(0.001, new BenchDrive(1000, powered, false));
            if (cut is not null && double.IsInfinity(caughtAt) && bench.Truth.Speed * 60 / (2 * Math.PI) > cut.Limit)
                caughtAt = at;
            most = Math.Max(most, parameters.Rotor.Energy(bench.Truth.Speed));
        }

        return most;
    }
}
