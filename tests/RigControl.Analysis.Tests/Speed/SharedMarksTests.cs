using RigControl.Analysis.Fitting;
using RigControl.Analysis.Speed;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Speed;

/// <summary>Readings that are differences of marks, each of which is seen a little early or late: what one turn gains its neighbour loses.</summary>
public class SharedMarksTests
{
    private const int Turns = 60, Runs = 400;
    private const double Turn = 0.01, Jitter = 2e-5;

    /// <summary>Source: derived; of a mean of turns in a row only the first and the last mark are left.</summary>
    [Fact]
    public void The_middle_of_turns_that_share_marks_is_known_better_than_single_turns_would_let_it_and_no_better_than_it_is()
    {
        (double scatter, double said, double plain) = Middle(shares: true);
        Assert.True(said >= scatter, $"{said} is said, {scatter} is so");
        Assert.True(said < 0.6 * plain, $"{said} beside {plain}");
    }

    [Fact]
    public void Turns_of_which_nothing_is_known_count_as_single_ones()
    {
        (double scatter, double said, double plain) = Middle(shares: false);
        Assert.InRange(said / scatter, 0.85, 1.2);
        Assert.InRange(said / plain, 0.95, 1.05);
    }

    [Fact]
    public void What_hangs_together_more_than_marks_make_it_counts_as_fewer_readings()
    {
        SpeedSignal signal = Signal([.. Enumerable.Range(0, Turns).Select(i => 6000 + 30 * Math.Pow((i - 0.5 * Turns) / (0.5 * Turns), 2))], marks: 1);
        (Fit fit, double[][] columns) = Line(signal);
        double plain = fit.ResidualDeviation / Math.Sqrt(Turns);
        Assert.True(SharedMarks.Of(signal, fit, [1, 0], columns).Uncertainty > 1.5 * plain);
    }

    // Scatter of the fitted value in the middle over many runs; what is said of it; what plain least squares would say.
    private static (double Scatter, double Said, double Plain) Middle(bool shares)
    {
        SplitMix chance = new(77);
        double[] middles = new double[Runs];
        double said = 0, plain = 0;
        for (int run = 0; run < Runs; run++)
        {
            double[] late = [.. Enumerable.Range(0, 2 * Turns).Select(_ => Jitter * chance.Bell())];
            double[] speeds = [.. Enumerable.Range(0, Turns).Select(i => 60 / (Turn + late[i + 1] - late[shares ? i : Turns + i]))];
            SpeedSignal signal = Signal(speeds, shares ? 1 : 0);
            (Fit fit, double[][] columns) = Line(signal);
            middles[run] = fit.Parameters[0];
            said += SharedMarks.Of(signal, fit, [1, 0], columns).Uncertainty / Runs;
            plain += fit.Uncertainty(0) / Runs;
        }

        return (Summary.Deviation(middles), said, plain);
    }

    private static (Fit Fit, double[][] Columns) Line(SpeedSignal signal)
    {
        double middle = signal.Times.Average();
        double[][] columns = [[.. signal.Times.Select(_ => 1.0)], [.. signal.Times.Select(t => t - middle)]];
        return (LinearFit.Solve(columns, signal.Values), columns);
    }

    // Each dated in the middle of its turn.
    private static SpeedSignal Signal(double[] speeds, double marks) =>
        new([.. Enumerable.Range(0, speeds.Length).Select(i => (i + 0.5) * Turn)], speeds, marks, 0, []);
}
