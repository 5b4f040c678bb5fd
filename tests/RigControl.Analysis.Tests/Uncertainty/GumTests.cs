using System.Text.Json.Nodes;
using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Tests.Support;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Tests.Uncertainty;

/// <summary>
/// Source: JCGM 100:2008, examples H.1 and H.2, and JCGM 101:2008, clause 9.2.3; inputs read, printed results from memory,
/// all recomputed; gum/gum_examples.json.
/// </summary>
public class GumTests
{
    private static readonly JsonNode Gum = JsonNode.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "reference", "gum", "gum_examples.json")))!;

    [Fact]
    public void The_length_of_an_end_gauge_is_known_as_well_as_the_guide_says()
    {
        JsonNode h1 = Gum["H1"]!;
        Measured length = Propagation.ByLaw(EndGauge, EndGaugeInputs);
        Near.Absolute(Number(h1, "l_nm"), length.Value, 1e-6);
        Near.Relative(Number(h1, "uc_nm"), length.Uncertainty, 1e-6);
        // Effective degrees of freedom of the guide count each input once, the readings' parts already joined.
        Near.Relative(Number(h1, "nu_eff"), length.Freedom, 2e-2);
        Near.Relative(Number(h1, "k99_nu16"), Coverage.Factor(0.99, 16), 1e-9);
        Near.Relative(Number(h1, "U99"), Coverage.Factor(0.99, Math.Floor(length.Freedom)) * 32, 1e-9);
        Assert.Equal("standard", length.Budget[0].Name);
    }

    [Fact]
    public void The_parts_of_the_comparison_have_the_degrees_of_freedom_that_the_guide_says() =>
        Near.Relative(Number(Gum["H1"]!, "nu_d"), Coverage.EffectiveFreedom([(5.8, 24), (3.9, 5), (6.7, 8)]), 1e-6);

    [Fact]
    public void Where_the_formula_bends_trials_find_the_second_order_part()
    {
        Measured trials = MonteCarlo.Of(EndGauge, [.. EndGaugeInputs.Select(i => i with { Freedom = double.PositiveInfinity })], trials: 400_000);
        Near.Relative(Number(Gum["H1"]!, "uc_2nd_order"), trials.Uncertainty, 5e-3);
    }

    [Fact]
    public void Resistance_and_reactance_from_readings_that_hang_together_are_as_the_guide_says()
    {
        JsonNode h2 = Gum["H2"]!;
        double[][] readings =
        [
            [5.007, 4.994, 5.005, 4.990, 4.999],
            [0.019663, 0.019639, 0.019640, 0.019685, 0.019678],
            [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
        ];
        Input[] inputs = [.. readings.Select((r, i) => new Input($"input {i}", Summary.Mean(r), Summary.Deviation(r) / Math.Sqrt(5), 4))];
        double[,] correlations = Correlations(readings);
        for (int i = 0; i < 3; i++)
        {
            Near.Relative(Number(h2["mean"]!, i), inputs[i].Value, 1e-9);
            Near.Relative(Number(h2["u"]!, i), inputs[i].Uncertainty, 1e-9);
        }

        Formula[] formulas = [x => x[0] / x[1] * Math.Cos(x[2]), x => x[0] / x[1] * Math.Sin(x[2]), x => x[0] / x[1]];
        double[,] covariance = Propagation.Covariance(formulas, inputs, correlations);
        for (int i = 0; i < 3; i++)
        {
            Measured figure = Propagation.ByLaw(formulas[i], inputs, correlations);
            Near.Relative(Number(h2["RXZ"]!, i), figure.Value, 1e-9);
            Near.Relative(Number(h2["uRXZ"]!, i), figure.Uncertainty, 1e-5);
            Near.Relative(Number(h2["indep_u_if_no_corr"]!, i), Propagation.ByLaw(formulas[i], inputs).Uncertainty, 1e-5);
        }

        Near.Relative(Number(h2, "rRX"), Correlation(covariance, 0, 1), 1e-5);
        Near.Relative(Number(h2, "rRZ"), Correlation(covariance, 0, 2), 1e-5);
        Near.Relative(Number(h2, "rXZ"), Correlation(covariance, 1, 2), 1e-5);
    }

    [Fact]
    public void Four_rectangular_inputs_sum_to_the_interval_of_the_supplement()
    {
        JsonNode expected = Gum["JCGM101_9.2.3"]!;
        Input[] inputs = [.. Enumerable.Range(0, 4).Select(i => new Input($"x{i}", 0, 1, Shape: Shape.Rectangular))];
        Measured sum = MonteCarlo.Of(x => x[0] + x[1] + x[2] + x[3], inputs, trials: 400_000);
        Near.Relative(2, sum.Uncertainty, 5e-3);
        Near.Relative(Number(expected, "analytic"), sum.Interval95.High, 5e-3);
        Near.Relative(-Number(expected, "analytic"), sum.Interval95.Low, 5e-3);
        Near.Relative(Number(expected, "GUF"), Propagation.ByLaw(x => x[0] + x[1] + x[2] + x[3], inputs).Interval95.High, 1e-4);
    }

    // l = ls + d - ls (difference of expansion × temperature + expansion × difference of temperature), nm and degC.
    private static double EndGauge(ReadOnlySpan<double> x) => x[0] + x[1] + x[2] + x[3] - x[0] * (x[4] * x[5] + x[6] * x[7]);

    private static Input[] EndGaugeInputs =>
    [
        new("standard", 50_000_623, 25, 18),
        new("comparison, repeated", 215, 5.8, 24),
        new("comparator, random", 0, 3.9, 5),
        new("comparator, systematic", 0, 6.7, 8),
        new("difference of expansion", 0, 1e-6 / Math.Sqrt(3), 50, Shape.Rectangular),
        new("temperature", -0.1, 0.41),
        new("expansion", 11.5e-6, 2e-6 / Math.Sqrt(3), Shape: Shape.Rectangular),
        new("difference of temperature", 0, 0.05 / Math.Sqrt(3), 2, Shape.Rectangular),
    ];

    private static double[,] Correlations(double[][] readings)
    {
        double[,] r = new double[readings.Length, readings.Length];
        for (int i = 0; i < readings.Length; i++)
        {
            for (int j = 0; j < readings.Length; j++)
            {
                (double mi, double mj) = (readings[i].Average(), readings[j].Average());
                double product = readings[i].Zip(readings[j], (a, b) => (a - mi) * (b - mj)).Sum() / (readings[i].Length - 1);
                r[i, j] = product / (Summary.Deviation(readings[i]) * Summary.Deviation(readings[j]));
            }
        }

        return r;
    }

    private static double Correlation(double[,] c, int i, int j) => c[i, j] / Math.Sqrt(c[i, i] * c[j, j]);

    private static double Number(JsonNode node, string name) => node[name]!.GetValue<double>();

    private static double Number(JsonNode node, int index) => node[index]!.GetValue<double>();
}
