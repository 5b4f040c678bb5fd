using System.Device.I2c;
using System.Globalization;
using Iot.Device.Adc;
using RigControl.Contracts;
using RigControl.Contracts.Buses;
using RigControl.Model.Signals;

namespace RigControl.Devices.I2cSensors;

/// <summary>Options of <c>ina219</c>.</summary>
public sealed class Ina219Options
{
    /// <summary>Number of the I2C bus, 0 to 63. Default 1.</summary>
    [Count(0, 63), Meaning("Number of the I2C bus.")]
    public int Bus { get; set; } = 1;

    /// <summary>Address of the chip, 64 to 79 (0x40 to 0x4f, by its two address pins). Default 64.</summary>
    [Count(0x40, 0x4f), Meaning("Address of the chip, set by its two address pins.")]
    public int Address { get; set; } = 0x40;

    /// <summary>Resistance of the shunt, in Ohm, 0.0001 to 1. Required.</summary>
    [Quantity("Ohm", 0.0001, 1), Meaning("Resistance of the shunt.")]
    public double ShuntResistance { get; set; } = double.NaN;

    /// <summary>
    /// Highest current that is to be measured, in either direction, in A, 0.01 to 1000; a reading above it is Bad. It may
    /// not drop more than 310 mV across the shunt. Required.
    /// </summary>
    [Quantity("A", 0.01, 1000), Meaning("Highest current that is to be measured, in either direction.")]
    public double MaximumCurrent { get; set; } = double.NaN;

    /// <summary>Further tries after a failed one, 0 to 5. Default 2.</summary>
    [Count(0, 5), Meaning("Further tries after a failed one.")]
    public int Retries { get; set; } = 2;
}

/// <summary>Makes <c>ina219</c>.</summary>
public sealed class Ina219Plugin : DevicePlugin<Ina219Options>
{
    private readonly IBuses _buses;

    public Ina219Plugin() : this(SystemBuses.Shared) { }

    internal Ina219Plugin(IBuses buses) => _buses = buses;

    public override string Kind => "ina219";

    public override string Meaning => "Voltage and current of the pack by an INA219 across a shunt.";

    protected override IDevice Open(Ina219Options options, DeviceContext context)
    {
        Ina219Calibration calibration = Ina219Calibration.For(options.ShuntResistance, options.MaximumCurrent);
        ChipSite site = new("INA219", options.Bus, options.Address);
        I2cDevice place = site.Open(_buses);
        return site.Start(place, options.Retries, () => new Ina219Sensor(site, place, options, calibration));
    }

    protected override IReadOnlyList<ChannelDeclaration> Foresee(Ina219Options options, TimeSpan scanPeriod) => Ina219Sensor.Supplied(options);
}

/// <summary>
/// Samples every 10 ms, each conversion half a millisecond: a current peak between two samples goes unseen, so this sensor
/// alone is no protection against short ones.
/// </summary>
internal sealed class Ina219Sensor : I2cSensor
{
    private const int Voltage = 0;
    private const double HighestVoltage = 26;
    private const double VoltageStep = 0.004;

    // Ten times the converter's own 1 ms, so that a read seldom meets a conversion under way; slower than the scan.
    private static readonly TimeSpan Period = TimeSpan.FromMilliseconds(10);

    private readonly Ina219 _chip;
    private readonly Ina219Calibration _calibration;

    public Ina219Sensor(ChipSite site, I2cDevice place, Ina219Options options, Ina219Calibration calibration)
        : base(site, options.Retries, place)
    {
        (_chip, _calibration) = (new Ina219(place), calibration);
        Channels = Supplied(options);
        _chip.Reset();
        if (_chip.OperatingMode != Ina219OperatingMode.ShuntAndBusContinuous || _chip.BusVoltageRange != Ina219BusVoltageRange.Range32v)
            throw new DeviceException($"{site} is not one: it does not start with an INA219's settings; check the address");
        _chip.SetCalibration(Ina219Calibration.Register, (float)calibration.Step);
        // The first conversion after the reset may not be over yet.
        Measure(Voltage);
    }

    public override IReadOnlyList<ChannelDeclaration> Channels { get; }

    /// <summary>What a sensor with these options supplies.</summary>
    public static IReadOnlyList<ChannelDeclaration> Supplied(Ina219Options options) =>
    [
        Declare(ChannelNames.BatteryVoltage, "V", 0, HighestVoltage, VoltageStep),
        Declare(ChannelNames.BatteryCurrent, "A", -options.MaximumCurrent, options.MaximumCurrent, 0),
    ];

    public override TimeSpan ReadPeriod => Period;

    public override IReadOnlyDictionary<string, string> Identity => new Dictionary<string, string>(base.Identity)
    {
        ["calibration"] = Ina219Calibration.Register.ToString(CultureInfo.InvariantCulture),
    };

    protected override double Measure(int channel) => channel == Voltage
        ? Unsigned(_chip.ReadBusVoltage().Volts)
        : _calibration.Signed(_chip.ReadCurrent().Amperes);

    protected override bool IsFaulty(int channel, double value) => false;

    // The binding takes the highest of the thirteen bits for a sign, so that 16.384 V and more come out below zero.
    private static double Unsigned(double volts) => volts < 0 ? volts + (1 << 13) * VoltageStep : volts;

    private static ChannelDeclaration Declare(string name, string unit, double minimum, double maximum, double resolution) => new()
    {
        Name = name, Unit = unit, Minimum = minimum, Maximum = maximum, Resolution = resolution,
        Period = Period, MaximumAge = Period * 5,
    };
}
