using CsCheck;
using RigControl.Contracts;
using RigControl.Devices.I2cSensors.Tests.Emulation;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Devices.I2cSensors.Tests;

/// <summary>The INA219 through its real binding, against an emulation of its registers.</summary>
public class Ina219Tests
{
    private const int Voltage = 0;
    private const int Current = 1;
    private const double Shunt = 0.002;

    private readonly EmulatedIna219 _chip = new(Shunt);

    [Theory]
    [InlineData(0, 0)]
    [InlineData(12.6, 0.1)]
    [InlineData(11.1, 35)]
    [InlineData(16.38, 1)]
    [InlineData(16.384, 1)]
    [InlineData(25.996, 150)]
    [InlineData(12, -0.02)]
    [InlineData(12, -40)]
    public void Voltage_and_current_come_as_they_are_in_either_direction(double volts, double amperes)
    {
        using IDevice sensor = Open();
        (_chip.Volts, _chip.Amperes) = (volts, amperes);
        Readings readings = Readings.Of(sensor);
        Assert.Equal(Quality.Good, readings[Voltage].Quality);
        Assert.Equal(volts, readings[Voltage].Value, tolerance: 0.0021);
        Assert.Equal(Quality.Good, readings[Current].Quality);
        Assert.Equal(amperes, readings[Current].Value, tolerance: 0.02);
    }

    [Fact]
    public void Every_current_within_the_range_is_right_to_two_counts_and_never_overflows() => Gen.Double[-150, 150].Sample(
        amperes =>
        {
            EmulatedIna219 chip = new(Shunt);
            using IDevice sensor = Open(chip);
            chip.Amperes = amperes;
            // One count of the shunt voltage is 10 uV / 2 mOhm = 5 mA, one of the current register 320 mV / 2 mOhm / 32767.
            Assert.Equal(amperes, Readings.Of(sensor)[Current].Value, tolerance: 0.0025 + 2 * 0.00489);
            Assert.False(chip.HasOverflowed);
        },
        iter: 200, threads: 1);

    [Theory]
    [InlineData(170)]
    [InlineData(5000)]
    [InlineData(-170)]
    [InlineData(-5000)]
    public void A_current_beyond_the_amplifier_reads_outside_the_channels_range_and_so_is_bad(double amperes)
    {
        using IDevice sensor = Open(maximumCurrent: 155);
        _chip.Amperes = amperes;
        double value = Readings.Of(sensor)[Current].Value;
        Assert.Equal(Math.Sign(amperes), Math.Sign(value));
        Assert.True(Math.Abs(value) > sensor.Channels[Current].Maximum);
        Assert.False(_chip.HasOverflowed);
    }

    [Fact]
    public void The_emulation_agrees_with_the_data_sheets_worked_example()
    {
        // TI SBOS448, table "Calculating the INA219", from memory: 2 mOhm, 10 A, 11.98 V, step 1 mA.
        _chip.WriteRegister(5, 20480);
        (_chip.Volts, _chip.Amperes) = (11.98, 10);
        Assert.Equal((2000, 2995, 10000), (_chip.ReadRegister(1), _chip.ReadRegister(2) >> 3, _chip.ReadRegister(4)));
        Assert.Equal(5990, _chip.ReadRegister(3));
    }

    [Fact]
    public void The_chip_is_calibrated_as_the_data_sheets_equation_says()
    {
        using IDevice sensor = Open();
        Assert.Equal(Ina219Calibration.Register, _chip.CalibrationRegister);
        Assert.Equal(0.04096, _chip.CalibrationRegister * Ina219Calibration.For(Shunt, 150).Step * Shunt, precision: 12);
        Assert.Equal("INA219", sensor.Identity["chip"]);
        Assert.Equal(_chip.CalibrationRegister.ToString(), sensor.Identity["calibration"]);
    }

    [Fact]
    public void The_next_higher_calibration_would_overflow_a_saturated_chip()
    {
        _chip.Amperes = 5000;
        _chip.WriteRegister(5, Ina219Calibration.Register);
        Assert.False(_chip.HasOverflowed);
        _chip.WriteRegister(5, Ina219Calibration.Register + 2);
        Assert.True(_chip.HasOverflowed);
    }

    [Fact]
    public void A_brown_out_of_the_chip_does_not_falsify_the_current()
    {
        using IDevice sensor = Open();
        _chip.Amperes = 35;
        _chip.BrownOut();
        Assert.Equal(35, Readings.Of(sensor)[Current].Value, tolerance: 0.02);
    }

    [Fact]
    public void It_declares_real_channels_and_drives_nothing()
    {
        using IDevice sensor = Open();
        Assert.Equal([(ChannelNames.BatteryVoltage, "V"), (ChannelNames.BatteryCurrent, "A")], sensor.Channels.Select(c => (c.Name, c.Unit)));
        Assert.Equal(DeviceTraits.None, sensor.Traits);
        int before = _chip.Transfers;
        sensor.Apply(Readings.Now, new OutputImage { Throttle = 1, Pulse = 2000, Switches = OutputSwitches.Power });
        Assert.Equal(before, _chip.Transfers);
    }

    [Fact]
    public void A_shunt_that_is_too_big_for_the_current_is_refused_before_the_bus_is_touched()
    {
        string message = Assert.Throws<OptionException>(() => Open(maximumCurrent: 156)).Message;
        Assert.Equal("an INA219 measures at most 155 A with a shunt of 0.002 Ohm; write a lower maximum-current or fit a smaller shunt", message);
        Assert.Equal(0, _chip.Transfers);
    }

    [Fact]
    public void What_has_no_default_must_be_written() => Assert.Equal(
        "shunt-resistance is missing; write 0.0001 Ohm to 1 Ohm; maximum-current is missing; write 0.01 A to 1000 A",
        Assert.Throws<OptionException>(() => Readings.Open(new Ina219Plugin(new EmulatedBuses()), new Ina219Options())).Message);

    [Fact]
    public void Another_chip_at_the_address_is_not_taken_for_one()
    {
        _chip.Impostor = 0x1234;
        string message = Assert.Throws<DeviceException>(() => Open()).Message;
        Assert.Equal("the INA219 at address 64 (0x40) on I2C bus 1 is not one: it does not start with an INA219's settings; check the address", message);
        Assert.True(_chip.IsDisposed);
    }

    private IDevice Open(EmulatedIna219? chip = null, double maximumCurrent = 150) => Readings.Open(
        new Ina219Plugin(new EmulatedBuses(chip ?? _chip)), new Ina219Options { ShuntResistance = Shunt, MaximumCurrent = maximumCurrent });
}
