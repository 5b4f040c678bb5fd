using RigControl.Analysis.Comparing;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;
using RigControl.Model.Rig;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Comparing;

/// <summary>Two recorded spin-ups of which the truth is known: the split names the cause that was changed, or says what it lacks.</summary>
public class SpinUpSplitTests
{
    /// <summary>What really drove a spin-up.</summary>
    private sealed record Truth(double Supply = 12, double Kt = 0.0095, double Resistance = 0.12, double Friction = 0.012, double Inertia = 2.2e-4, double Ramp = 0.4, double Level = 60, ulong Seed = 1);

    [Theory]
    [InlineData("supply")]
    [InlineData("torque")]
    [InlineData("drag")]
    [InlineData("inertia")]
    public void The_only_cause_that_was_changed_explains_the_difference_and_the_others_may_be_nothing(string cause)
    {
        Truth before = new(), after = cause switch
        {
            "supply" => before with { Supply = 11, Seed = 2 },
            "torque" => before with { Resistance = 0.16, Seed = 2 },
            "drag" => before with { Friction = 0.035, Seed = 2 },
            _ => before with { Inertia = 3e-4, Seed = 2 },
        };
        SpinUpSplit split = SpinUpSplit.Of([Repeat(before)], [Repeat(after)]);
        Dictionary<string, Measured> parts = SplitText.Parts(split.Why).ToDictionary(p => p.Cause, p => p.Part);
        double difference = split.Second.Value - split.First.Value;
        Assert.True(difference > 0.02, $"{cause} hardly matters: {difference} s");
        Near.Absolute(difference, parts[cause].Value, 0.15 * difference + parts[cause].Interval95.High - parts[cause].Value, cause);
        Assert.False(SplitText.MayBeNothing(parts[cause]), cause);
        Assert.All(parts.Where(p => p.Key != cause), p => Assert.True(Math.Abs(p.Value.Value) < 0.2 * difference, $"{p.Key} {p.Value.Value} s of {difference} s"));
        Assert.Equal(cause, SplitText.Parts(split.Why)[0].Cause);
    }

    [Fact]
    public void Spin_ups_that_are_alike_are_split_into_nothing_that_is_sure()
    {
        SpinUpSplit split = SpinUpSplit.Of([Repeat(new())], [Repeat(new Truth(Seed: 5))]);
        Assert.All(SplitText.Parts(split.Why), p => Assert.True(SplitText.MayBeNothing(p.Part), SplitText.Of(p.Cause, p.Part)));
    }

    [Fact]
    public void Several_repeats_are_taken_together_and_one_that_tells_nothing_is_left_out()
    {
        FigureContext[] first = [Repeat(new()), Repeat(new Truth(Seed: 3)), Repeat(new(), article: Articles.MotorAlone)];
        SpinUpSplit split = SpinUpSplit.Of(first, [Repeat(new Truth(Inertia: 3e-4, Seed: 4))]);
        Assert.Equal((2, 1), split.Repeats);
    }

    /// <summary>The reader of a sentence needs the speed, the difference and every cause with its doubt.</summary>
    [Fact]
    public void The_sentence_tells_how_much_longer_to_which_speed()
    {
        SpinUpSplit split = SpinUpSplit.Of([Repeat(new())], [Repeat(new Truth(Inertia: 3e-4, Seed: 2))]);
        Assert.Matches(@"^the spin-up to \d+ rpm takes 0\.\d{3} ± 0\.\d{3} s longer$", SplitText.Difference(split));
        Assert.Matches(@"^inertia \+0\.\d{3} ± 0\.\d{3} s$", SplitText.Of("inertia", split.Why.Inertia));
        Assert.Matches(@"^the spin-up to \d+ rpm takes 0\.\d{3} ± 0\.\d{3} s less$", SplitText.Difference(SpinUpSplit.Of([Repeat(new Truth(Inertia: 3e-4, Seed: 2))], [Repeat(new())])));
    }

    [Fact]
    public void Without_an_inertia_the_reason_names_the_side() =>
        Says("of the second side, the article declares no inertia", [Repeat(new())], [Repeat(new(), article: Articles.MotorAlone)]);

    [Fact]
    public void Without_a_coast_down_the_drag_is_not_known() =>
        Says("of the first side, its drag is not known, for the output was never let go", [Repeat(new(), coasts: false)], [Repeat(new())]);

    [Fact]
    public void Ramps_of_different_length_are_no_cause_that_could_be_split() =>
        Says("the demand rose in 0.4 s in one spin-up and in 0.8 s in another", [Repeat(new())], [Repeat(new Truth(Ramp: 0.8))]);

    [Fact]
    public void A_demand_that_rises_in_steps_is_no_single_spin_up() =>
        Says("of the first side, the demand did not rise evenly to one level", [Repeat(new(), steps: true)], [Repeat(new())]);

    [Fact]
    public void A_side_without_any_rise_says_so() => Says("of the second side, the output never rose", [Repeat(new())], []);

    private static void Says(string reason, FigureContext[] first, FigureContext[] second) =>
        Assert.StartsWith(reason, Assert.Throws<NoFigureException>(() => SpinUpSplit.Of(first, second)).Message, StringComparison.Ordinal);

    // Two seconds at rest and eight of output, then the rotor coasts to rest.
    private static FigureContext Repeat(Truth truth, Article? article = null, bool coasts = true, bool steps = false)
    {
        const double rise = 2, release = 10, dt = 0.0005;
        double end = coasts ? 40 : release;
        CoastDown drag = new(0, truth.Friction / truth.Inertia, 0.01, 2e-5);
        double timeConstant = truth.Inertia * truth.Resistance / (truth.Kt * truth.Kt);
        double free = truth.Level / 100 * truth.Supply / truth.Kt;
        double Demand(double t) => t < rise || (coasts && t >= release) ? 0 : steps ? (t < rise + 3 ? 0.2 : 1) : Math.Min(1, (t - rise) / truth.Ramp);
        double[] speed = new double[(int)(end / dt) + 2];
        for (int i = 0; i + 1 < speed.Length; i++)
        {
            double w = speed[i], slowing = w > 0 ? drag.Slowing(w) : 0;
            speed[i + 1] = Math.Max(0, w + dt * (Math.Max(0, (Demand(i * dt) * free - w) / timeConstant) - slowing));
        }

        SplitMix chance = new(truth.Seed);
        MadeTrace made = new MadeTrace()
            .Channel("rotor.speed", "rpm", t => speed[(int)Math.Round(t / dt)] is > 0 and var w ? Math.Max(0.1, w * 30 / Math.PI + 3 * chance.Bell()) : 0, to: end, step: 0.005)
            .Channel("output.throttle", "%", t => truth.Level * Demand(t), to: end, step: 0.005)
            .Channel("battery.voltage", "V", _ => truth.Supply + 0.01 * chance.Bell(), to: end, step: 0.005)
            .Repeat(rise, rise + 6, coasts ? release : double.NaN, end);
        Article declared = article ?? Articles.Disc with { Rotor = Articles.Disc.Rotor! with { Inertia = truth.Inertia } };
        FigureInput input = new(made.Build(), declared, FigureContext.UsualRestSpeed);
        return new FigureContext(input, input.Trace.Segments[0]);
    }
}
