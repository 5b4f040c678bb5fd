using System.Globalization;
using System.Text;
using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>The rotor's own inertia from a trace of two repeats, the second with a ring on it. Source: derived; the same drag on another inertia.</summary>
public sealed class AddedInertiaTests : IDisposable
{
    private const double Own = 2e-4, Ring = 1e-4;
    private readonly Tool _tool = new();

    [Theory]
    [InlineData("0.0001")]
    [InlineData("0.0001 kg.m2")]
    [InlineData("100000 g.mm2")]
    public void Two_coast_downs_give_the_rotors_own_inertia_within_its_interval(string added)
    {
        JsonElement figure = Inertia(added);
        Assert.Equal("kg.m2", figure.GetProperty("unit").GetString());
        Assert.Equal(Own, figure.GetProperty("value").GetDouble(), 0.03 * Own);
        Assert.InRange(Own, figure.GetProperty("interval95")[0].GetDouble(), figure.GetProperty("interval95")[1].GetDouble());
        Assert.Equal(["coast-down alone", "coast-down with what is added"], Parts(figure).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_ring_known_to_5_percent_leaves_the_rotor_known_no_better_and_leads_its_budget()
    {
        JsonElement exact = Inertia("0.0001"), known = Inertia("0.0001 kg.m2 +- 0.000005");
        double of(JsonElement figure) => figure.GetProperty("standardUncertainty").GetDouble();
        Assert.Equal("added inertia", Parts(known)[0]);
        // The rotor's inertia is proportional to the ring's.
        Assert.Equal(Math.Sqrt(of(exact) * of(exact) + Math.Pow(0.05 * known.GetProperty("value").GetDouble(), 2)), of(known), 0.02 * of(known));
    }

    [Theory]
    [InlineData("0", "above 0")]
    [InlineData("much", "write it as VALUE UNIT")]
    [InlineData("5 mm", "no unit for it: write one of kg.m2, g.mm2")]
    public void What_is_no_inertia_ends_with_a_sentence_and_exit_code_2(string added, string why)
    {
        Said said = _tool.Run("analyze", _tool.Write("trace.csv", Trace()), "--added-inertia", added);
        Assert.Equal((2, ""), (said.ExitCode, said.Output));
        Assert.Contains($"added inertia '{added}': ", said.Errors, StringComparison.Ordinal);
        Assert.Contains(why, said.Errors, StringComparison.Ordinal);
    }

    public void Dispose() => _tool.Dispose();

    private JsonElement Inertia(string added) => _tool.Run("analyze", _tool.Write("trace.csv", Trace()), "--added-inertia", added, "--json").Json
        .GetProperty("figures").EnumerateArray().Single(f => f.GetProperty("name").GetString() == "inertia");

    private static List<string?> Parts(JsonElement figure) => [.. figure.GetProperty("budget").EnumerateArray().Select(b => b.GetProperty("name").GetString())];

    // Rise, hold and coast-down alone and with the ring, under a constant drag in N.m, with a reader whose every reading is fresh.
    private static string Trace()
    {
        const double drag = 0.015;
        Random chance = new(17);
        StringBuilder text = new("time [s],rotor.speed [rpm],output.throttle [%]\r\n");
        int rows = 0;
        void Add(double speed, double demand) =>
            text.Append(CultureInfo.InvariantCulture, $"{0.01 * rows++:0.00},{(speed > 0 ? 30 / Math.PI * speed + 10 * (chance.NextDouble() - 0.5) : 0):R},{demand}\r\n");
        foreach (double inertia in new[] { Own, Own + Ring })
        {
            for (int i = 0; i < 100; i++)
                Add(0, 0);
            for (int i = 0; i < 400; i++)
                Add(900 * (1 - Math.Exp(-i / 30.0)), 60);
            for (double t = 0; t < 900 * inertia / drag + 1; t += 0.01)
                Add(900 - drag / inertia * t, 0);
        }

        return text.ToString();
    }
}
