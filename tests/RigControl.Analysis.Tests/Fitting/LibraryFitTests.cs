using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Tests.Support;
using RigControl.Physics;

namespace RigControl.Analysis.Tests.Fitting;

/// <summary>
/// The solver beside a general-purpose numerical library's: MathNet.Numerics 5, its Levenberg-Marquardt minimizer, which shares nothing with
/// ours but the problem. Laws that the figures are made of, on values that scatter.
/// </summary>
public class LibraryFitTests
{
    private const int Count = 200;

    public static TheoryData<string, ulong> Cases
    {
        get
        {
            TheoryData<string, ulong> cases = [];
            foreach (string law in Laws.Keys)
            {
                foreach (ulong seed in new ulong[] { 1, 2, 3, 4, 5 })
                    cases.Add(law, seed);
            }

            return cases;
        }
    }

    private static readonly Dictionary<string, Law> Laws = new()
    {
        ["approach to a level"] = new([800, 0.3], [600, 0.5], 5, (p, t) => p[0] * (1 - Math.Exp(-t / p[1]))),
        ["cooling to the room"] = new([45, 0.8, 21], [30, 0.5, 15], 0.3, (p, t) => p[2] + p[0] * Math.Exp(-t / p[1])),
        ["coast-down with dry friction and windage"] = new([700, 30, 2e-3], [600, 20, 1e-3], 3, (p, t) => new CoastDown(p[0], p[1], 0, p[2]).Speed(t)),
        ["two lumps"] = new([30, 1.2, 12, 0.15], [25, 1.5, 8, 0.1], 0.1, (p, t) => p[0] * Math.Exp(-t / p[1]) + p[2] * Math.Exp(-t / p[3])),
    };

    [Theory, MemberData(nameof(Cases))]
    public void Ours_and_the_library_s_agree_on_parameters_and_their_uncertainties(string name, ulong seed)
    {
        Law law = Laws[name];
        SplitMix chance = new(seed * 37 + 5);
        double[] times = [.. Enumerable.Range(0, Count).Select(i => (i + 1) * 0.01)];
        double[] seen = [.. times.Select(t => law.Of(law.Truth, t) + law.Noise * chance.Bell())];
        Fit ours = LeastSquares.Solve(new FitProblem
        {
            Observed = seen, Start = law.Start, Names = [.. law.Start.Select((_, i) => $"p{i}")],
            Model = (p, predicted) =>
            {
                double[] parameters = p.ToArray();
                for (int i = 0; i < times.Length; i++)
                    predicted[i] = law.Of(parameters, times[i]);
            },
        });
        NonlinearMinimizationResult theirs = Library(law, times, seen);
        for (int k = 0; k < law.Start.Length; k++)
        {
            double error = theirs.StandardErrors[k];
            Near.Absolute(theirs.MinimizingPoint[k], ours.Parameters[k], 1e-4 * error, $"{name}, seed {seed}, parameter {k} beside its uncertainty of {error}");
            Near.Relative(error, ours.Uncertainty(k), 1e-3, $"{name}, seed {seed}, uncertainty of parameter {k}");
        }
    }

    private static NonlinearMinimizationResult Library(Law law, double[] times, double[] seen)
    {
        Vector<double> Predict(Vector<double> p, Vector<double> t) => t.Map(x => law.Of(p.AsArray() ?? p.ToArray(), x));
        IObjectiveModel model = ObjectiveFunction.NonlinearModel(Predict, Vector<double>.Build.Dense(times), Vector<double>.Build.Dense(seen), accuracyOrder: 6);
        LevenbergMarquardtMinimizer minimizer = new(gradientTolerance: 1e-14, stepTolerance: 1e-14, functionTolerance: 1e-14, maximumIterations: 500);
        return minimizer.FindMinimum(model, Vector<double>.Build.Dense(law.Start));
    }

    private sealed record Law(double[] Truth, double[] Start, double Noise, Func<double[], double, double> Of);
}
