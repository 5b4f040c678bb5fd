using RigControl.Analysis.Figures;
using RigControl.Analysis.Speed;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Speed;

/// <summary>A rotor at a steady speed, one mark a turn, each mark seen a little early or late.</summary>
public class SettledTests
{
    private const double Turn = 0.006;
    private const double Truth = 60 / Turn;
    private const double Jitter = 10e-6;
    private const int Runs = 300;

    [Theory]
    [InlineData(0, 0)]
    [InlineData(0.03, 0)]
    [InlineData(0, 1)]
    [InlineData(0.03, 1)]
    public void The_mean_of_turns_that_share_their_marks_has_an_interval_that_holds_the_truth_also_with_lost_readings_and_steps(double lost, double step)
    {
        SplitMix chance = new(81);
        int held = 0;
        for (int run = 0; run < Runs; run++)
        {
            (double low, double high) = Settled.OfTurns(Turns(lost, step, wander: 0, ref chance)).Level.Interval95;
            held += low <= Truth && Truth <= high ? 1 : 0;
        }

        Assert.InRange(held, 0.92 * Runs, Runs);
    }

    /// <summary>Source: derived; of turns in a row two marks remain in the sum, so that the mean is known by the root of half their number better than from single ones.</summary>
    [Fact]
    public void Turns_in_a_row_tell_their_mean_far_better_than_as_many_single_ones()
    {
        SplitMix chance = new(82);
        SpeedSignal row = Turns(0, 0, wander: 0, ref chance);
        double single = Truth * Math.Sqrt(2) * Jitter / Turn / Math.Sqrt(row.Count);
        Assert.InRange(Settled.OfTurns(row).Level.Uncertainty, 0.5 * single / Math.Sqrt(row.Count), 2 * single / Math.Sqrt(row.Count));
    }

    [Fact]
    public void A_speed_that_wanders_is_not_believed_for_its_shared_marks()
    {
        SplitMix chance = new(83);
        Measured still = Settled.OfTurns(Turns(0, 0, wander: 0, ref chance)).Level, wandering = Settled.OfTurns(Turns(0, 0, wander: 2e-3, ref chance)).Level;
        Assert.True(wandering.Uncertainty > 10 * still.Uncertainty, $"{wandering.Uncertainty} rpm beside {still.Uncertainty}");
    }

    [Fact]
    public void Readings_of_which_no_marks_are_known_count_as_single_ones()
    {
        SplitMix chance = new(84);
        SpeedSignal turns = Turns(0, 0, wander: 0, ref chance);
        Assert.Equal(1, (turns with { Marks = 0 }).Lone);
        Assert.Equal(1.0 / turns.Count, turns.Lone, 12);
        Assert.True(Settled.OfTurns(turns with { Marks = 0 }).Level.Uncertainty > Settled.OfTurns(turns).Level.Uncertainty);
    }

    // Readings at the middles of their turns. Wander: share by which turns are really longer or shorter, over some twenty of them.
    private static SpeedSignal Turns(double lost, double step, double wander, ref SplitMix chance)
    {
        List<double> times = [], values = [];
        double mark = 0, seen = Jitter * chance.Bell(), swing = 0;
        for (int i = 0; i < 500; i++)
        {
            swing = 0.95 * swing + wander * Math.Sqrt(1 - 0.95 * 0.95) * chance.Bell();
            mark += Turn * (1 + swing);
            double next = mark + Jitter * chance.Bell(), speed = 60 / (next - seen);
            if (chance.Uniform() >= lost)
            {
                times.Add(0.5 * (seen + next));
                values.Add(step > 0 ? step * Math.Round(speed / step) : speed);
            }

            seen = next;
        }

        return new SpeedSignal([.. times], [.. values], 1, step, []);
    }
}
