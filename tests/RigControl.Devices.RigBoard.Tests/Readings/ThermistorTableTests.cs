using System.Text.Json.Nodes;
using RigControl.Devices.RigBoard.Readings;

namespace RigControl.Devices.RigBoard.Tests.Readings;

/// <summary>
/// The board's law of a thermistor against a maker's table of one of 10 kOhm, 0 to 50 degC. Source: thermo/steinhart_hart.json, second set
/// (read; its row at 40 degC is misprinted and left out).
/// </summary>
public class ThermistorTableTests
{
    private const double Series = 10_000;

    private static readonly (double Celsius, double Ohm)[] Table =
    [
        .. JsonNode.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "reference", "steinhart_hart.json")))!["example2"]!["points_C_ohm"]!.AsArray()
            .Select(p => (p![0]!.GetValue<double>(), p[1]!.GetValue<double>())),
    ];

    [Fact]
    public void The_table_is_read_to_a_twentieth_of_a_degree_where_its_b_value_was_taken() =>
        Assert.All(Table.Where(p => p.Celsius >= 20), p => Assert.InRange(Read(p.Ohm) - p.Celsius, -0.05, 0.05));

    [Fact]
    public void At_ice_the_same_b_value_reads_four_tenths_of_a_degree_too_warm() => Assert.InRange(Read(Ohm(0)), 0.3, 0.4);

    [Fact]
    public void A_thermistor_between_two_fingers_reads_warmer_by_what_the_table_says() => Assert.Equal(5, Read(Ohm(30)) - Read(Ohm(25)), 0.05);

    // B of the data sheet's usual kind, between 25 and 50 degC; what the converter would see, without its steps.
    private static double Read(double ohm)
    {
        double beta = Math.Log(Ohm(25) / Ohm(50)) / (1 / 298.15 - 1 / 323.15);
        return new Thermistor(Ohm(25), beta, Series).Temperature(1024 * ohm / (ohm + Series));
    }

    private static double Ohm(double celsius) => Table.Single(p => p.Celsius == celsius).Ohm;
}
