using RigControl.Contracts;
using RigControl.Interlocks;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;

namespace RigControl.Campaigns;

/// <summary>A small, lively rotor with every usual interlock, so that a run reaches every state within seconds.</summary>
internal static class CampaignRig
{
    public const double SpeedLimit = 6000;
    public const double StandstillSpeed = 60;
    public static readonly TimeSpan Period = TimeSpan.FromMilliseconds(5);

    /// <summary>Torque at the current limit over the inertia, rad/s2: nothing on this bench gains speed faster.</summary>
    public const double GreatestAcceleration = 60 / (2 * Math.PI * 1000) * CurrentLimit / Inertia;

    private const double CurrentLimit = 30;
    private const double Inertia = 4e-5;

    public static Article Article { get; } = new()
    {
        Name = "campaign-disc",
        Controller = new ControllerProfile
        {
            Mode = ControllerMode.OneWay, StopPulse = 1000, MinimumPulse = 1000, MaximumPulse = 2000, Direction = PulseDirection.Longer,
            BrakesAtStop = true, WhenPulsesCease = CeasedPulseBehaviour.Stops, ArmingTime = TimeSpan.FromSeconds(0.5),
        },
        Rotor = new Rotor(Inertia, 0.03, 0.08, 10_000),
        Motor = new Motor(1000, 0.06, 1.2, CurrentLimit),
        Pack = new Pack(3, "LiPo", 1.3, 0.03),
        StoppingTime = TimeSpan.FromSeconds(0.5),
        LongestCoastDown = TimeSpan.FromSeconds(20),
        MaximumRise = 4,
    };

    public static PluginCatalog Catalog(IDevicePlugin bench) => PluginCatalog.Of("campaign", [bench],
    [
        new LidClosedPlugin(), new LidLockedPlugin(), new StopClearPlugin(), new FailsafeConfirmedPlugin(), new OverSpeedPlugin(),
        new OverCurrentPlugin(), new UnderVoltagePlugin(), new TemperatureCeilingPlugin(), new StaleReadingPlugin(),
    ]);

    public static RigDocuments Documents { get; } = new(
        Rig(), new DocumentCopy("campaign", ""), Article, new DocumentCopy("campaign-disc", ""), Procedure(), new DocumentCopy("campaign", ""));

    private static RigDefinition Rig() => new()
    {
        Name = "campaign", ScanPeriod = Period, StandstillSpeed = StandstillSpeed, StandstillTime = TimeSpan.FromSeconds(0.5),
        Devices = [new DeviceDefinition("bench", "faulty-bench", new Dictionary<string, object>(), new Dictionary<string, string>())],
        Interlocks =
        [
            Interlock("lid-closed"), Interlock("lid-locked"), Interlock("stop-clear"), Interlock("failsafe-confirmed"),
            Interlock("over-speed", ("limit", SpeedLimit)),
            Interlock("over-current", ("limit", 35.0), ("for", 0.5), ("peak", 100.0)),
            Interlock("under-voltage", ("limit", 8.0), ("for", 0.2)),
            Interlock("temperature-ceiling", ("channel", ChannelNames.MotorTemperature), ("ceiling", 80.0), ("rise", 20.0), ("window", 2.0)),
            Interlock("stale-reading", ("channel", ChannelNames.RotorSpeed), ("maximum-age", 0.05)),
        ],
    };

    private static InterlockDefinition Interlock(string kind, params (string Name, object Value)[] options) =>
        new(kind, kind, options.ToDictionary(o => o.Name, o => o.Value), null, null, InterlockScope.EveryStep);

    private static Procedure Procedure() => new()
    {
        Name = "campaign", Repeat = 3, Requires = [], Figures = [],
        Steps =
        [
            new Step { Kind = StepKind.Arm, Timeout = TimeSpan.FromSeconds(3) },
            new Step
            {
                Kind = StepKind.SpinUp, Throttle = 0.35, Ramp = TimeSpan.FromSeconds(0.4), Timeout = TimeSpan.FromSeconds(2),
                Until = [new Condition(ChannelNames.RotorSpeed, ConditionKind.Above, 2000, false, TimeSpan.Zero)],
            },
            new Step { Kind = StepKind.Hold, For = TimeSpan.FromSeconds(0.8), Timeout = TimeSpan.FromSeconds(2) },
            new Step
            {
                Kind = StepKind.CoastDown, Timeout = TimeSpan.FromSeconds(15),
                Until = [new Condition(ChannelNames.RotorSpeed, ConditionKind.Below, StandstillSpeed, false, TimeSpan.Zero)],
            },
            new Step { Kind = StepKind.Rest, For = TimeSpan.FromSeconds(0.2), Timeout = TimeSpan.FromSeconds(2) },
        ],
    };
}
