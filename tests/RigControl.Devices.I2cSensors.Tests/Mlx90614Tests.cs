using RigControl.Contracts;
using RigControl.Devices.I2cSensors.Tests.Emulation;
using RigControl.Model.Signals;

namespace RigControl.Devices.I2cSensors.Tests;

/// <summary>The MLX90614 through its real binding, against an emulation of its registers.</summary>
public class Mlx90614Tests
{
    private const int Motor = 0;
    private const int Ambient = 1;

    private readonly EmulatedMlx90614 _chip = new();

    [Theory]
    [InlineData(81.3, 22.5)]
    [InlineData(-40, -10)]
    [InlineData(380, 125)]
    public void Motor_and_air_come_as_they_are(double motor, double air)
    {
        using IDevice sensor = Open();
        (_chip.ObjectTemperature, _chip.AmbientTemperature) = (motor, air);
        Readings readings = Readings.Of(sensor);
        Assert.Equal((Quality.Good, Quality.Good), (readings[Motor].Quality, readings[Ambient].Quality));
        Assert.Equal(motor, readings[Motor].Value, tolerance: 0.0101);
        Assert.Equal(air, readings[Ambient].Value, tolerance: 0.0101);
    }

    [Fact]
    public void A_word_from_the_data_sheet_is_read_as_the_data_sheet_says()
    {
        // Melexis, figure of "read word": 0x3AD2, which is 28.01 degC, with the code 0x30; from memory.
        _chip.RawObject = 0x3AD2;
        using IDevice sensor = Open();
        Assert.Equal(28.01, Readings.Of(sensor)[Motor].Value, tolerance: 1e-9);
        byte[] word = new byte[3];
        _chip.WriteRead([0x07], word);
        Assert.Equal([0xD2, 0x3A, 0x30], word);
    }

    [Fact]
    public void The_check_code_is_that_of_SMBus()
    {
        // Check value of CRC-8/SMBUS over the digits 1 to 9, from memory of the usual catalogue.
        Assert.Equal(0xF4, PacketErrorCode.Add(0, "123456789"u8));
        Assert.Equal(0x30, PacketErrorCode.Add(0, [0xB4, 0x07, 0xB5, 0xD2, 0x3A]));
    }

    [Fact]
    public void Any_single_bit_that_the_wires_turn_over_is_noticed_and_the_word_asked_for_again()
    {
        for (int bit = 0; bit < 24; bit++)
        {
            EmulatedMlx90614 chip = new() { ObjectTemperature = 81.3 };
            using IDevice sensor = Open(chip);
            chip.SpoilWords(1, bit);
            (double value, Quality quality) = Readings.Of(sensor)[Motor];
            Assert.Equal(81.3, value, tolerance: 0.0101);
            Assert.Equal(Quality.Uncertain, quality);
        }
    }

    [Fact]
    public void Words_that_keep_coming_spoilt_are_bad_and_never_a_number()
    {
        using IDevice sensor = Open();
        _chip.SpoilWords(int.MaxValue, 15);
        Readings readings = Readings.Of(sensor);
        Assert.Equal((double.NaN, Quality.Bad), readings[Motor]);
        Assert.Equal((double.NaN, Quality.Bad), readings[Ambient]);
    }

    [Fact]
    public void A_reading_that_the_chip_itself_marks_as_an_error_is_bad()
    {
        using IDevice sensor = Open();
        _chip.HasError = true;
        Assert.Equal(Quality.Bad, Readings.Of(sensor)[Motor].Quality);
        Assert.Equal(Quality.Bad, Readings.Of(sensor)[Ambient].Quality);
        _chip.HasError = false;
        Assert.Equal(Quality.Good, Readings.Of(sensor)[Motor].Quality);
    }

    [Theory]
    [InlineData(0x8000)]
    [InlineData(0xFFFF)]
    [InlineData(0xBAD2)]
    public void Every_word_with_the_error_flag_is_bad(int word)
    {
        using IDevice sensor = Open();
        _chip.RawObject = (ushort)word;
        Assert.Equal(Quality.Bad, Readings.Of(sensor)[Motor].Quality);
    }

    [Fact]
    public void It_declares_both_temperatures_within_what_the_chip_can_measure()
    {
        using IDevice sensor = Open();
        Assert.Equal([(ChannelNames.MotorTemperature, "degC", -70.0, 380.0), (ChannelNames.AmbientTemperature, "degC", -40.0, 125.0)],
            sensor.Channels.Select(c => (c.Name, c.Unit, c.Minimum, c.Maximum)));
        Assert.Equal(DeviceTraits.None, sensor.Traits);
        Assert.Equal("MLX90614", sensor.Identity["chip"]);
    }

    private IDevice Open(EmulatedMlx90614? chip = null) =>
        Readings.Open(new Mlx90614Plugin(new EmulatedBuses(chip ?? _chip)), new Mlx90614Options());
}
