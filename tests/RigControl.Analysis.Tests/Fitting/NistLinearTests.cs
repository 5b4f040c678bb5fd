using RigControl.Analysis.Fitting;
using RigControl.Analysis.Tests.Support;

namespace RigControl.Analysis.Tests.Fitting;

/// <summary>Source: NIST Statistical Reference Datasets, linear regression and univariate (read).</summary>
public class NistLinearTests
{
    [Theory]
    [InlineData("Norris", 10)]
    [InlineData("NoInt1", 10)]
    [InlineData("Longley", 10)]
    [InlineData("Wampler1", 9)]
    public void The_certified_coefficients_are_found(string name, double digits)
    {
        NistSet set = NistSet.Load("lls", name);
        double[][] certified = set.Linear();
        Fit fit = LinearFit.Solve(Columns(name, set.Data()), [.. set.Data().Select(r => r[0])]);
        Assert.Equal(certified.Length, fit.Parameters.Length);
        double residual = set.Last("Standard Deviation   ");
        for (int j = 0; j < certified.Length; j++)
        {
            Digits.AtLeast(digits, certified[j][0], fit.Parameters[j], $"B{j}");
            Digits.AtLeast(digits, certified[j][1], fit.Uncertainty(j), $"standard deviation of B{j}");
        }

        Digits.AtLeast(digits, residual, fit.ResidualDeviation, "residual standard deviation");
    }

    /// <summary>NumAcc1 and NumAcc3 have large means and small scatter; the data of the latter have no exact binary form: that costs digits before any arithmetic.</summary>
    [Theory]
    [InlineData("Lew", 12, 12)]
    [InlineData("Lottery", 12, 12)]
    [InlineData("NumAcc1", 12, 12)]
    [InlineData("NumAcc3", 12, 9)]
    public void Mean_scatter_and_serial_correlation_are_as_certified(string name, double digitsOfMean, double digits)
    {
        NistSet set = NistSet.Load("univ", name);
        double[] y = [.. set.Data().Select(r => r[0])];
        Digits.AtLeast(digitsOfMean, set.Last("Sample Mean"), Summary.Mean(y), "mean");
        Digits.AtLeast(digits, set.Last("Sample Standard Dev"), Summary.Deviation(y), "standard deviation");
        Digits.AtLeast(digits, set.Last("Sample Autocorrelation Coef"), Summary.Autocorrelation(y, 1), "autocorrelation");
    }

    private static double[][] Columns(string name, double[][] data)
    {
        int n = data.Length;
        return name switch
        {
            "NoInt1" => [[.. data.Select(r => r[1])]],
            "Wampler1" => [.. Enumerable.Range(0, 6).Select(p => data.Select(r => Math.Pow(r[1], p)).ToArray())],
            _ => [[.. Enumerable.Repeat(1.0, n)], .. Enumerable.Range(1, data[0].Length - 1).Select(k => data.Select(r => r[k]).ToArray())],
        };
    }
}
