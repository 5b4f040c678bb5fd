using RigControl.Analysis.Fitting;
using RigControl.Analysis.Power;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Traces;

namespace RigControl.Analysis.Tests.Motors;

/// <summary>
/// Source: measured sweeps of throttle, thrust, voltage, current and speed of small brushless motors with propellers; public measurements
/// under the MIT licence (read).
/// </summary>
public class PropellerSweepTests
{
    public static TheoryData<string> Sweeps => ["a1_11", "a2_11", "a3_11", "a4_11", "a1_7", "a4_7"];

    [Theory, MemberData(nameof(Sweeps))]
    public void Power_is_voltage_times_current_of_the_same_moment(string file)
    {
        double[][] rows = Rows(file);
        double[] times = [.. rows.Select(r => r[0])];
        Series power = PackSeries.Power(new Series("V", 0, times, [.. rows.Select(r => r[3])]), new Series("A", 0, times, [.. rows.Select(r => r[4])]));
        for (int i = 0; i < rows.Length; i++)
            Near.Absolute(rows[i][6], power.Values[i], 0.3, $"row {i}");
    }

    /// <summary>Source: derived; thrust of one propeller goes with the square of its speed (similarity of flows, from memory).</summary>
    [Theory, MemberData(nameof(Sweeps))]
    public void Thrust_goes_with_the_square_of_the_speed(string file)
    {
        double[][] rows = [.. Rows(file).Where(r => r[5] > 5000)];
        Assert.True(rows.Length >= 6);
        Fit fit = LinearFit.Solve([[.. rows.Select(_ => 1.0)], [.. rows.Select(r => Math.Log(r[5]))]], [.. rows.Select(r => Math.Log(r[2]))]);
        Assert.InRange(fit.Parameters[1], 1.85, 2.35);
    }

    /// <summary>Source: the sweeps themselves: the pack sags as its current rises.</summary>
    [Theory, MemberData(nameof(Sweeps))]
    public void The_voltage_falls_with_the_current_as_a_resistance_does(string file)
    {
        double[][] rows = [.. Rows(file).Take(8)];
        Fit fit = LinearFit.Solve([[.. rows.Select(_ => 1.0)], [.. rows.Select(r => r[4])]], [.. rows.Select(r => r[3])]);
        Assert.True(-fit.Parameters[1] > 3 * fit.Uncertainty(1), "no sag is seen");
        Assert.InRange(-fit.Parameters[1], 0.005, 0.2);
    }

    private static double[][] Rows(string file)
    {
        double[][] rows = Reference.Rows($"opendata/propeller_static/{file}.csv");
        Assert.True(rows.Length >= 10, $"{file} has only {rows.Length} rows");
        return rows;
    }
}
