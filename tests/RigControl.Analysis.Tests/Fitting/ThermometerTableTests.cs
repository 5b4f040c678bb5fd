using RigControl.Analysis.Fitting;
using RigControl.Analysis.Tests.Support;

namespace RigControl.Analysis.Tests.Fitting;

/// <summary>
/// A calibration of a platinum thermometer against its standard. Source: IEC 60751:2008, Table 1 and its constants (from memory);
/// thermo/iec60751_pt100.csv. The program reads no such thermometer by itself: its laws are the fitter's to find.
/// </summary>
public class ThermometerTableTests
{
    // Ohm at 0 degC, and what the standard multiplies it by: per K, per K2, and per K4 below 0 degC.
    private const double AtZero = 100;
    private static readonly double[] Constants = [1, 3.9083e-3, -5.775e-7, -4.183e-12];

    private static readonly double[][] Table = Reference.Rows("thermo/iec60751_pt100.csv", 2);

    [Fact]
    public void The_law_of_the_standard_describes_its_whole_table_to_the_last_digit()
    {
        Assert.Equal(28, Table.Length);
        Assert.All(Fitted(_ => true, 4).Residuals, r => Assert.InRange(r, -0.006, 0.006));
    }

    [Fact]
    public void The_table_above_ice_gives_the_constants_of_the_standard_within_their_intervals() => Holds(Fitted(t => t >= 0, 3));

    [Fact]
    public void The_whole_table_gives_the_constant_below_ice_as_well() => Holds(Fitted(_ => true, 4));

    [Fact]
    public void Without_the_term_that_only_counts_below_ice_the_cold_end_is_missed_and_shows_in_the_residuals()
    {
        Fit fit = Fitted(_ => true, 3);
        Assert.True(fit.ResidualDeviation > 10 * Fitted(_ => true, 4).ResidualDeviation, $"{fit.ResidualDeviation}");
        Assert.True(Summary.CorrelationLength(fit.Residuals) > 1.5);
    }

    private static void Holds(Fit fit)
    {
        for (int k = 0; k < fit.Parameters.Length; k++)
            Near.Absolute(AtZero * Constants[k], fit.Parameters[k], 3 * fit.Uncertainty(k), $"constant {k}");
    }

    private static Fit Fitted(Func<double, bool> taken, int constants)
    {
        double[][] rows = [.. Table.Where(r => taken(r[0]))];
        double[] t = [.. rows.Select(r => r[0])];
        double[][] columns = [[.. t.Select(_ => 1.0)], t, [.. t.Select(x => x * x)], [.. t.Select(x => x < 0 ? (x - 100) * x * x * x : 0)]];
        return LinearFit.Solve(columns[..constants], [.. rows.Select(r => r[1])]);
    }
}
