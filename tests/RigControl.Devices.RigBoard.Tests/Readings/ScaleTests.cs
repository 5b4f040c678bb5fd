using RigControl.Devices.RigBoard.Readings;

namespace RigControl.Devices.RigBoard.Tests.Readings;

public class ScaleTests
{
    [Fact]
    public void Half_the_range_is_half_the_voltage_and_no_current()
    {
        Assert.Equal(15, Scale.FromZero(30).Of(512), 9);
        Assert.Equal(0, Scale.AroundMiddle(62.5).Of(512), 9);
        Assert.Equal(31.25, Scale.AroundMiddle(62.5).Of(768), 9);
        Assert.Equal(-62.5, Scale.AroundMiddle(62.5).Of(0), 9);
    }

    [Fact]
    public void The_ends_of_the_range_are_known_and_no_volt_is_none()
    {
        Assert.True(Scale.FromZero(30).Ends(1023));
        Assert.False(Scale.FromZero(30).Ends(0));
        Assert.True(Scale.AroundMiddle(60).Ends(1023));
        Assert.True(Scale.AroundMiddle(60).Ends(0));
        Assert.False(Scale.AroundMiddle(60).Ends(1022));
    }

    /// <summary>Definition of the B value between 25 and 85 degC: R85 = R25 exp(B (1/358.15 K - 1/298.15 K)) (derived).</summary>
    [Fact]
    public void A_thermistor_reads_25_degrees_at_its_resistance_and_85_at_what_its_b_value_says()
    {
        Thermistor thermistor = new(10_000, 3950, 4700);
        Assert.Equal(25, thermistor.Temperature(Counts(10_000)), 9);
        Assert.Equal(85, thermistor.Temperature(Counts(10_000 * Math.Exp(3950 * (1 / 358.15 - 1 / 298.15)))), 9);
    }

    [Fact]
    public void A_hotter_thermistor_gives_fewer_counts_and_the_ends_give_no_number()
    {
        Thermistor thermistor = new(10_000, 3950, 10_000);
        for (int counts = 1; counts < 1023; counts++)
            Assert.True(thermistor.Temperature(counts) > thermistor.Temperature(counts + 1));
        Assert.True(double.IsNaN(thermistor.Temperature(0)));
        Assert.True(double.IsNaN(thermistor.Temperature(1024)));
        Assert.True(double.IsNaN(thermistor.Temperature(double.NaN)));
    }

    [Fact]
    public void Errors_of_four_counters_add_up_across_their_wraps()
    {
        ErrorCount count = default;
        Assert.Equal(0, count.Add(0xFF_00_FE_03));
        Assert.Equal(5, count.Add(0x01_00_00_04));
        Assert.Equal(5, count.Add(0x01_00_00_04));
        Assert.Equal(6, count.Add(0x01_01_00_04));
    }

    private static double Counts(double ohms) => 1024 * ohms / (ohms + 4700);
}
