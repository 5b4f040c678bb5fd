using System.Text.Json.Nodes;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Tests.Support;

namespace RigControl.Analysis.Tests.Fitting;

/// <summary>
/// The law 1/T = A + B ln R + C (ln R)³ of a thermistor (Steinhart and Hart 1968, from memory) through points of published tables.
/// Source: thermo/steinhart_hart.json; the coefficients of the first set from memory, the table of the second read.
/// </summary>
public class ThermistorLawTests
{
    private const double Ice = 273.15;

    [Fact]
    public void Three_points_of_the_first_table_give_its_published_coefficients()
    {
        JsonNode set = Set("example1");
        double[] found = Law(Pairs(set, "points_C_ohm")).Parameters;
        double[] published = [.. set["ABC"]!.AsArray().Select(c => c!.GetValue<double>())];
        for (int k = 0; k < 3; k++)
            Near.Relative(published[k], found[k], 1e-8, $"coefficient {k}");
    }

    [Fact]
    public void Three_points_of_the_second_table_give_its_published_coefficients_to_their_digits_and_foretell_the_rows_between()
    {
        JsonNode set = Set("example2");
        (double Celsius, double Ohm)[] all = Pairs(set, "points_C_ohm");
        double[] found = Law([.. all.Where(p => p.Celsius is 0 or 25 or 50)]).Parameters;
        double[] published = [.. set["ABC_from_0_25_50"]!.AsArray().Select(c => c!.GetValue<double>())];
        for (int k = 0; k < 3; k++)
            Near.Relative(published[k], found[k], 1e-6, $"coefficient {k}");
        foreach ((double celsius, double said) in Pairs(set, "T_check"))
            Near.Absolute(said, Celsius(found, all.Single(p => p.Celsius == celsius).Ohm), 1e-4, $"at {celsius} degC");
    }

    [Fact]
    public void The_whole_second_table_lies_on_one_law_to_a_few_thousandths_of_a_degree()
    {
        (double Celsius, double Ohm)[] all = Pairs(Set("example2"), "points_C_ohm");
        double[] found = Law(all).Parameters;
        Assert.Equal(6, all.Length);
        Assert.All(all, p => Near.Absolute(p.Celsius, Celsius(found, p.Ohm), 0.005));
    }

    private static double Celsius(double[] law, double ohm)
    {
        double log = Math.Log(ohm);
        return 1 / (law[0] + log * (law[1] + log * log * law[2])) - Ice;
    }

    private static Fit Law((double Celsius, double Ohm)[] points)
    {
        double[] logs = [.. points.Select(p => Math.Log(p.Ohm))];
        return LinearFit.Solve([[.. logs.Select(_ => 1.0)], logs, [.. logs.Select(l => l * l * l)]], [.. points.Select(p => 1 / (p.Celsius + Ice))]);
    }

    private static JsonNode Set(string name) => Reference.Json("thermo/steinhart_hart.json")[name]!;

    private static (double Celsius, double Ohm)[] Pairs(JsonNode set, string name) =>
        [.. set[name]!.AsArray().Select(p => (p![0]!.GetValue<double>(), p[1]!.GetValue<double>()))];
}
