using RigControl.Contracts;
using RigControl.Devices.RigBoard.Opening;
using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Tests.Double;

/// <summary>The article and the options of the bench that the tests run on.</summary>
internal static class Workshop
{
    public static readonly Article Disc = new()
    {
        Name = "disc-180",
        Controller = new ControllerProfile
        {
            Mode = ControllerMode.OneWay, StopPulse = 1000, MinimumPulse = 1000, MaximumPulse = 2000, Direction = PulseDirection.Longer,
            BrakesAtStop = false, WhenPulsesCease = CeasedPulseBehaviour.Stops, ArmingTime = TimeSpan.FromSeconds(2),
        },
        Rotor = new Rotor(1.8e-4, 0.045, 0.18, 10_000),
        StoppingTime = TimeSpan.FromSeconds(0.5),
        LongestCoastDown = TimeSpan.FromSeconds(60),
        MaximumRise = 2,
    };

    public static RigBoardOptions Options() => new()
    {
        Port = "the test's line", ServoRate = 400, OverSpeed = 9500, TachometerLostAfter = 1, OverCurrent = 45,
        VoltageFullScale = 30, CurrentFullScale = 62.5, ThermistorResistance = 10_000, ThermistorBeta = 3950, ThermistorSeries = 10_000,
    };

    public static DeviceContext Context(TimeProvider time, Article? article = null) => new()
    {
        Id = "board", Article = article ?? Disc, ScanPeriod = TimeSpan.FromMilliseconds(5), Seed = 1, Time = time, Epoch = 0,
    };

    public static RigBoardDevice Open(LineDouble line, ManualTime time, RigBoardOptions? options = null) => RigBoardDevice.Open(
        line, options ?? Options(), ConfigurationOfRig.Build(options ?? Options(), Disc), Context(time));
}
