using System.Text.Json.Nodes;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Tests.Support;

namespace RigControl.Analysis.Tests.Fitting;

/// <summary>The solver on what others have published.</summary>
public class PublishedFitTests
{
    /// <summary>
    /// Source: Savitzky and Golay, Anal. Chem. 36 (1964) 1627, corrected by Steinier, Termonia and Deltour, Anal. Chem. 44 (1972) 1906
    /// (tables from memory); sg/savgol_tables.json. Smoothing is the value of a fitted polynomial in the middle, its slope the derivative.
    /// </summary>
    [Fact]
    public void A_polynomial_through_a_window_has_the_weights_of_the_tables()
    {
        int looked = 0;
        foreach (JsonNode? table in Reference.Json("sg/savgol_tables.json").AsArray())
        {
            if (table!["numerators"] is not JsonArray numerators || table["window"] is null)
                continue;
            int window = table["window"]!.GetValue<int>(), order = table["polyorder"]!.GetValue<int>();
            double norm = table["norm"]!.GetValue<double>();
            string kind = table["kind"]!.GetValue<string>();
            int parameter = kind.Contains("1", StringComparison.Ordinal) ? 1 : kind.Contains("2", StringComparison.Ordinal) ? 2 : 0;
            double factor = parameter == 2 ? 2 : 1;
            for (int k = 0; k < window; k++)
                Near.Absolute(numerators[k]!.GetValue<double>() / norm, factor * Weight(window, order, parameter, k), 1e-10, $"{kind} {window}/{order}, place {k}");
            looked++;
        }

        Assert.True(looked >= 12, $"only {looked} tables were looked at");
    }

    /// <summary>Source: derived; variance of slope and of acceleration of N equally spaced frames; video/frame_timing.json.</summary>
    [Fact]
    public void Slope_and_acceleration_of_equally_spaced_frames_are_known_as_the_closed_form_says()
    {
        JsonArray cases = Reference.Json("video/frame_timing.json")["lsq_variance"]!["check"]!.AsArray();
        foreach (JsonNode? c in cases)
        {
            (int n, double rate) = ((int)Reference.Number(c!, "N"), Reference.Number(c!, "fps"));
            double[] t = [.. Enumerable.Range(0, n).Select(i => (i - (n - 1) / 2.0) / rate)];
            double[] alternating = [.. t.Select((_, i) => i % 2 == 0 ? 1.0 : -1.0)];
            Fit line = LinearFit.Solve([[.. t.Select(_ => 1.0)], t], alternating);
            Near.Relative(Reference.Number(c!, "var_slope_formula"), line.Covariance[1, 1] / Square(line.ResidualDeviation), 1e-9, $"slope, N = {n}");
            Fit parabola = LinearFit.Solve([[.. t.Select(_ => 1.0)], t, [.. t.Select(x => 0.5 * x * x)]], alternating);
            Near.Relative(Reference.Number(c!, "var_acc_formula"), parabola.Covariance[2, 2] / Square(parabola.ResidualDeviation), 1e-9, $"acceleration, N = {n}");
        }
    }

    private static double Weight(int window, int order, int parameter, int place)
    {
        double[] x = [.. Enumerable.Range(0, window).Select(i => i - (window - 1) / 2.0)];
        double[] unit = [.. x.Select((_, i) => i == place ? 1.0 : 0.0)];
        return LinearFit.Solve([.. Enumerable.Range(0, order + 1).Select(p => x.Select(v => Math.Pow(v, p)).ToArray())], unit).Parameters[parameter];
    }

    private static double Square(double x) => x * x;
}
