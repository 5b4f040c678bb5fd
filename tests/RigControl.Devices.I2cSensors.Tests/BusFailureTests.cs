using System.Device.I2c;
using RigControl.Contracts;
using RigControl.Contracts.Buses;
using RigControl.Devices.I2cSensors.Tests.Emulation;
using RigControl.Model.Signals;

namespace RigControl.Devices.I2cSensors.Tests;

/// <summary>What a failing bus does to both sensors: each transfer in turn fails, once in passing and once for good.</summary>
public class BusFailureTests
{
    private const int MoreThanAnyTransfer = 40;

    public static TheoryData<string> Sensors() => ["ina219", "mlx90614"];

    [Theory]
    [MemberData(nameof(Sensors))]
    public void A_transfer_that_fails_in_passing_costs_quality_and_never_the_value(string kind)
    {
        int uncertain = 0;
        for (int n = 1; n <= MoreThanAnyTransfer; n++)
        {
            EmulatedChip chip = Chip(kind);
            using IDevice sensor = Open(kind, chip);
            chip.Fail(n, count: 1);
            Readings readings = Readings.Of(sensor);
            AssertTrue(readings);
            int inThisRead = Enumerable.Range(0, 2).Count(c => readings[c].Quality == Quality.Uncertain);
            Assert.Equal(((I2cSensor)sensor).FailedTries, inThisRead);
            uncertain += inThisRead;
        }

        Assert.True(uncertain >= 2, "every channel has at least one transfer that can fail");
    }

    [Theory]
    [MemberData(nameof(Sensors))]
    public void A_transfer_that_fails_for_good_gives_bad_readings_and_then_a_sentence(string kind)
    {
        for (int n = 1; n <= MoreThanAnyTransfer; n++)
        {
            EmulatedChip chip = Chip(kind);
            using IDevice sensor = Open(kind, chip);
            chip.Fail(n);
            DeviceException end = Assert.Throws<DeviceException>(() => ReadForEver(sensor));
            Assert.Matches(@"^the \w+ at address \d+ \(0x..\) on I2C bus 1 has been silent for 10 reads: Error 121 performing I2C data transfer\. "
                + @"Check its wiring and supply; \d+ tries failed since it was opened$", end.Message);
        }
    }

    [Theory]
    [MemberData(nameof(Sensors))]
    public void A_sensor_that_comes_back_in_time_is_used_again(string kind)
    {
        EmulatedChip chip = Chip(kind);
        using IDevice sensor = Open(kind, chip);
        for (int round = 0; round < 3; round++)
        {
            chip.Fail(1);
            for (int silent = 1; silent < I2cSensor.MostSilentReads; silent++)
                Assert.Equal(Quality.Bad, Readings.Of(sensor)[0].Quality);
            chip.Recover();
            Assert.Equal(Quality.Good, Readings.Of(sensor)[0].Quality);
        }
    }

    [Theory]
    [MemberData(nameof(Sensors))]
    public void A_transfer_that_fails_in_passing_does_not_keep_the_sensor_from_opening(string kind)
    {
        for (int n = 1; n <= MoreThanAnyTransfer; n++)
        {
            EmulatedChip chip = Chip(kind);
            chip.Fail(n, count: 1);
            using IDevice sensor = Open(kind, chip);
            chip.Recover();
            AssertTrue(Readings.Of(sensor));
        }
    }

    [Theory]
    [MemberData(nameof(Sensors))]
    public void A_sensor_whose_bus_fails_while_it_opens_says_so_and_lets_go(string kind)
    {
        EmulatedChip sound = Chip(kind);
        Open(kind, sound).Dispose();
        for (int n = 1; n <= sound.Transfers; n++)
        {
            EmulatedChip chip = Chip(kind);
            chip.Fail(n);
            string message = Assert.Throws<DeviceException>(() => Open(kind, chip)).Message;
            Assert.EndsWith(
                "on I2C bus 1 does not answer: Error 121 performing I2C data transfer. Check its wiring, supply and address", message);
            Assert.True(chip.IsDisposed);
        }
    }

    [Theory]
    [MemberData(nameof(Sensors))]
    public void Without_retries_one_failure_is_a_bad_reading(string kind)
    {
        EmulatedChip chip = Chip(kind);
        using IDevice sensor = Open(kind, chip, retries: 0);
        chip.Fail(1, count: 1);
        Assert.Equal((double.NaN, Quality.Bad), Readings.Of(sensor)[0]);
        Assert.Equal(1, ((I2cSensor)sensor).FailedTries);
    }

    [Theory]
    [MemberData(nameof(Sensors))]
    public void Two_retries_bridge_two_failures_and_not_three(string kind)
    {
        EmulatedChip chip = Chip(kind);
        using IDevice sensor = Open(kind, chip);
        chip.Fail(1, count: 2);
        Assert.Equal(Quality.Uncertain, Readings.Of(sensor)[0].Quality);
        chip.Fail(1, count: 3);
        Assert.Equal(Quality.Bad, Readings.Of(sensor)[0].Quality);
    }

    [Theory]
    [MemberData(nameof(Sensors))]
    public void A_stuck_bus_is_asked_once_a_read_so_that_no_call_runs_into_its_deadline(string kind)
    {
        EmulatedChip chip = Chip(kind);
        using IDevice sensor = Open(kind, chip);
        chip.Fail(1, how: new TimeoutException("I2C bus 1 did not finish a transfer within 100 ms; the bus is stuck."));
        int before = chip.Transfers;
        Readings readings = Readings.Of(sensor);
        Assert.Equal((Quality.Bad, Quality.Bad), (readings[0].Quality, readings[1].Quality));
        Assert.Equal(before + 1, chip.Transfers);
        Assert.True(SystemBuses.TransferDeadline * 2 < DeviceLimits.CallDeadline);
        Assert.Contains("the bus is stuck", Assert.Throws<DeviceException>(() => ReadForEver(sensor)).Message);
    }

    [Theory]
    [MemberData(nameof(Sensors))]
    public void A_fault_of_the_program_is_not_hidden_as_one_of_the_bus(string kind)
    {
        EmulatedChip chip = Chip(kind);
        using IDevice sensor = Open(kind, chip);
        chip.Fail(1, how: new InvalidOperationException("a mistake"));
        Assert.Throws<InvalidOperationException>(() => Readings.Of(sensor));
    }

    [Theory]
    [InlineData("ina219", "the INA219 at address 65 (0x41) on I2C bus 1")]
    [InlineData("mlx90614", "the MLX90614 at address 65 (0x41) on I2C bus 1")]
    public void A_sensor_that_is_not_there_is_named_with_its_place(string kind, string site)
    {
        string message = Assert.Throws<DeviceException>(() => Open(kind, Chip(kind), address: 0x41)).Message;
        Assert.Equal($"{site} does not answer: Error 121 performing I2C data transfer. Check its wiring, supply and address", message);
    }

    [Theory]
    [MemberData(nameof(Sensors))]
    public void A_bus_that_is_not_there_is_named(string kind)
    {
        string message = Assert.Throws<DeviceException>(() => Open(kind, Chip(kind), bus: 7)).Message;
        Assert.EndsWith("on I2C bus 7: there is no I2C bus 7 on this machine (/dev/i2c-7); check that I2C is switched on, "
            + "the number of the bus and who may use it", message);
    }

    [Theory]
    [MemberData(nameof(Sensors))]
    public void Closing_a_sensor_on_a_dead_bus_does_no_harm(string kind)
    {
        EmulatedChip chip = Chip(kind);
        IDevice sensor = Open(kind, chip);
        chip.FailureOfDispose = EmulatedChip.NotAcknowledged;
        sensor.Dispose();
        Assert.True(chip.IsDisposed);
    }

    [Fact]
    public void Both_sensors_share_one_bus_through_the_thread_that_owns_it()
    {
        SharedBus bus = new();
        SystemBuses buses = new(_ => bus, () => TimeSpan.FromMinutes(1));
        using IDevice first = Readings.Open(new Ina219Plugin(buses), Options("ina219"));
        using IDevice second = Readings.Open(new Mlx90614Plugin(buses), Options("mlx90614"));
        AssertTrue(Readings.Of(first));
        AssertTrue(Readings.Of(second));
    }

    private static EmulatedChip Chip(string kind) => kind == "ina219"
        ? new EmulatedIna219(0.002) { Volts = 20, Amperes = 20 }
        : new EmulatedMlx90614();

    private static IDevice Open(string kind, EmulatedChip chip, int bus = 1, int? address = null, int retries = 2)
    {
        EmulatedBuses buses = new(chip);
        return Readings.Open(kind == "ina219" ? new Ina219Plugin(buses) : new Mlx90614Plugin(buses), Options(kind, bus, address, retries));
    }

    private static object Options(string kind, int bus = 1, int? address = null, int retries = 2) => kind == "ina219"
        ? new Ina219Options { Bus = bus, Address = address ?? 0x40, Retries = retries, ShuntResistance = 0.002, MaximumCurrent = 150 }
        : new Mlx90614Options { Bus = bus, Address = address ?? 0x5A, Retries = retries };

    // Every chip here measures 20 of everything.
    private static void AssertTrue(Readings readings)
    {
        for (int channel = 0; channel < 2; channel++)
        {
            Assert.True(readings[channel].Quality >= Quality.Uncertain);
            Assert.Equal(20, readings[channel].Value, tolerance: 0.02);
        }
    }

    // Good until the failure begins, then bad; a value that is called usable is always the true one.
    private static void ReadForEver(IDevice sensor)
    {
        for (int read = 0; read < 1000; read++)
        {
            Readings readings = Readings.Of(sensor);
            for (int channel = 0; channel < 2; channel++)
            {
                if (readings[channel].Quality == Quality.Bad)
                    Assert.Equal(double.NaN, readings[channel].Value);
                else
                    Assert.Equal(20, readings[channel].Value, tolerance: 0.02);
            }
        }
    }

    private sealed class SharedBus : I2cBus
    {
        public override I2cDevice CreateDevice(int deviceAddress) => Chip(deviceAddress == 0x40 ? "ina219" : "mlx90614");

        public override void RemoveDevice(int deviceAddress)
        {
        }
    }
}
