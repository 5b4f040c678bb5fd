using System.Device.I2c;
using Mlx90614Binding = Iot.Device.Mlx90614.Mlx90614;
using RigControl.Contracts;
using RigControl.Contracts.Buses;
using RigControl.Model.Signals;

namespace RigControl.Devices.I2cSensors;

/// <summary>Options of <c>mlx90614</c>.</summary>
public sealed class Mlx90614Options
{
    /// <summary>Number of the I2C bus, 0 to 63. Default 1.</summary>
    [Count(0, 63), Meaning("Number of the I2C bus.")]
    public int Bus { get; set; } = 1;

    /// <summary>Address of the chip, 8 to 119. Default 90 (0x5a), as it leaves the factory.</summary>
    [Count(8, 119), Meaning("Address of the chip.")]
    public int Address { get; set; } = Mlx90614Binding.DefaultI2cAddress;

    /// <summary>Further tries after a failed one, 0 to 5. Default 2.</summary>
    [Count(0, 5), Meaning("Further tries after a failed one.")]
    public int Retries { get; set; } = 2;
}

/// <summary>Makes <c>mlx90614</c>.</summary>
public sealed class Mlx90614Plugin : DevicePlugin<Mlx90614Options>
{
    private readonly IBuses _buses;

    public Mlx90614Plugin() : this(SystemBuses.Shared) { }

    internal Mlx90614Plugin(IBuses buses) => _buses = buses;

    public override string Kind => "mlx90614";

    public override string Meaning => "Temperature of the motor, seen by infrared, and of the air, by an MLX90614.";

    protected override IDevice Open(Mlx90614Options options, DeviceContext context)
    {
        ChipSite site = new("MLX90614", options.Bus, options.Address);
        I2cDevice place = new PacketCheckedI2cDevice(site.Open(_buses));
        return site.Start(place, options.Retries, () => new Mlx90614Sensor(site, place, options));
    }

    protected override IReadOnlyList<ChannelDeclaration> Foresee(Mlx90614Options options, TimeSpan scanPeriod) => Mlx90614Sensor.Supplied;
}

/// <summary>
/// The chip filters over a good part of a second. Ranges of the two temperatures: data sheet of the MLX90614 (Melexis),
/// from memory.
/// </summary>
internal sealed class Mlx90614Sensor : I2cSensor
{
    private const int Motor = 0;
    private const double AbsoluteZero = -273.15;
    private const double Step = 0.02;

    // The sensor settles in about a tenth of a second; reading twice as often misses nothing.
    private static readonly TimeSpan Period = TimeSpan.FromMilliseconds(50);

    private readonly Mlx90614Binding _chip;

    public Mlx90614Sensor(ChipSite site, I2cDevice place, Mlx90614Options options) : base(site, options.Retries, place)
    {
        _chip = new Mlx90614Binding(place);
        Channels = Supplied;
        // Nothing needs to be set: one reading shows that the chip is there.
        Measure(Motor);
    }

    /// <summary>What every such sensor supplies.</summary>
    public static IReadOnlyList<ChannelDeclaration> Supplied { get; } =
        [Declare(ChannelNames.MotorTemperature, -70, 380), Declare(ChannelNames.AmbientTemperature, -40, 125)];

    public override IReadOnlyList<ChannelDeclaration> Channels { get; }

    public override TimeSpan ReadPeriod => Period;

    protected override double Measure(int channel) =>
        (channel == Motor ? _chip.ReadObjectTemperature() : _chip.ReadAmbientTemperature()).DegreesCelsius;

    /// <summary>The chip marks an error by the highest bit of the reading, which the binding takes for a sign.</summary>
    protected override bool IsFaulty(int channel, double value) => value < AbsoluteZero;

    private static ChannelDeclaration Declare(string name, double minimum, double maximum) => new()
    {
        Name = name, Unit = "degC", Minimum = minimum, Maximum = maximum, Resolution = Step,
        Period = Period, MaximumAge = Period * 5,
    };
}
