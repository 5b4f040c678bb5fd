using RigControl.Analysis.Fitting;
using RigControl.Analysis.Tests.Support;

namespace RigControl.Analysis.Tests.Fitting;

/// <summary>
/// Source: NIST Statistical Reference Datasets, nonlinear regression, certified to eleven digits (read).
/// ENSO, Thurber and MGH09 are asked for one digit less: their parameters lie badly beside each other.
/// </summary>
public class NistNonlinearTests
{
    private delegate double Formula(ReadOnlySpan<double> b, double x);

    private static readonly Dictionary<string, Formula> Formulas = new()
    {
        ["Misra1a"] = (b, x) => b[0] * (1 - Math.Exp(-b[1] * x)),
        ["Misra1b"] = (b, x) => b[0] * (1 - Math.Pow(1 + b[1] * x / 2, -2)),
        ["Chwirut2"] = (b, x) => Math.Exp(-b[0] * x) / (b[1] + b[2] * x),
        ["DanWood"] = (b, x) => b[0] * Math.Pow(x, b[1]),
        ["Lanczos3"] = (b, x) => b[0] * Math.Exp(-b[1] * x) + b[2] * Math.Exp(-b[3] * x) + b[4] * Math.Exp(-b[5] * x),
        ["ENSO"] = (b, x) => b[0] + b[1] * Math.Cos(2 * Math.PI * x / 12) + b[2] * Math.Sin(2 * Math.PI * x / 12)
            + b[4] * Math.Cos(2 * Math.PI * x / b[3]) + b[5] * Math.Sin(2 * Math.PI * x / b[3])
            + b[7] * Math.Cos(2 * Math.PI * x / b[6]) + b[8] * Math.Sin(2 * Math.PI * x / b[6]),
        ["Hahn1"] = (b, x) => (b[0] + x * (b[1] + x * (b[2] + x * b[3]))) / (1 + x * (b[4] + x * (b[5] + x * b[6]))),
        ["Thurber"] = (b, x) => (b[0] + x * (b[1] + x * (b[2] + x * b[3]))) / (1 + x * (b[4] + x * (b[5] + x * b[6]))),
        ["Kirby2"] = (b, x) => (b[0] + x * (b[1] + x * b[2])) / (1 + x * (b[3] + x * b[4])),
        ["MGH09"] = (b, x) => b[0] * (x * x + x * b[1]) / (x * x + x * b[2] + b[3]),
    };

    public static TheoryData<string, int> Sets
    {
        get
        {
            TheoryData<string, int> sets = [];
            foreach (string name in Formulas.Keys)
            {
                sets.Add(name, 1);
                sets.Add(name, 2);
            }

            return sets;
        }
    }

    [Theory, MemberData(nameof(Sets))]
    public void The_certified_fit_is_found_from_both_printed_starts(string name, int start)
    {
        NistSet set = NistSet.Load("nls", name);
        double[][] certified = set.Nonlinear();
        Fit fit = LeastSquares.Solve(Problem(name, set, [.. certified.Select(r => r[start - 1])]));
        double digits = name is "ENSO" or "Thurber" or "MGH09" ? 8 : 9;
        for (int j = 0; j < certified.Length; j++)
        {
            Digits.AtLeast(digits, certified[j][2], fit.Parameters[j], $"b{j + 1}");
            Digits.AtLeast(8, certified[j][3], fit.Uncertainty(j), $"standard deviation of b{j + 1}");
        }

        Digits.AtLeast(9, set.Last("Residual Sum of Squares"), fit.ResidualSumOfSquares, "residual sum of squares");
        Digits.AtLeast(9, set.Last("Residual Standard Deviation"), fit.ResidualDeviation, "residual standard deviation");
        Assert.Equal(set.Last("Degrees of Freedom"), fit.DegreesOfFreedom);
    }

    private static FitProblem Problem(string name, NistSet set, double[] start)
    {
        double[][] data = set.Data();
        double[] x = [.. data.Select(r => r[1])];
        Formula formula = Formulas[name];
        return new FitProblem
        {
            Observed = [.. data.Select(r => r[0])],
            Start = start,
            Model = (b, predicted) =>
            {
                for (int i = 0; i < x.Length; i++)
                    predicted[i] = formula(b, x[i]);
            },
        };
    }
}
