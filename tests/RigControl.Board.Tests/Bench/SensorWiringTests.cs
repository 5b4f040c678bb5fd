using RigControl.Board.Simulator.Bench;

namespace RigControl.Board.Tests.Bench;

/// <summary>The scales between the bench and the board's inputs.</summary>
public sealed class SensorWiringTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(12, 2000)]
    [InlineData(30, 5000)]
    public void Voltage_is_divided_by_six(double volts, double millivolts) => Assert.Equal(millivolts, SensorWiring.Voltage(volts), 6);

    [Theory]
    [InlineData(0, 2500)]
    [InlineData(10, 2900)]
    [InlineData(-10, 2100)]
    public void Current_swings_around_the_middle(double amperes, double millivolts) => Assert.Equal(millivolts, SensorWiring.Current(amperes), 6);

    [Fact]
    public void A_thermistor_at_25_degrees_is_at_half_the_supply_and_falls_as_it_warms()
    {
        Assert.Equal(2500, SensorWiring.Thermistor(25), 6);
        for (double celsius = -20; celsius < 150; celsius++)
            Assert.True(SensorWiring.Thermistor(celsius + 1) < SensorWiring.Thermistor(celsius));
    }

    /// <summary>B equation: R(T) = R25 · exp(B · (1/T − 1/298.15 K)). Source: from memory, common to all thermistor data sheets.</summary>
    [Fact]
    public void At_100_degrees_the_thermistor_has_the_resistance_of_the_B_equation()
    {
        double resistance = SensorWiring.ThermistorResistance * Math.Exp(SensorWiring.ThermistorB * (1 / 373.15 - 1 / 298.15));
        double expected = 5000 * resistance / (resistance + SensorWiring.ThermistorResistance);
        Assert.Equal(expected, SensorWiring.Thermistor(100), 6);
        Assert.InRange(resistance, 690, 710);
    }
}
