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
    public const double RadPerSecond = 2 * Math.PI / 60;

    /// <summary>Highest temperature allowed at the motor, degC.</summary>
    public const double Ceiling = 80;

    /// <summary>Truly below this the rotor is at rest, rad/s: the standstill speed and a tenth for what the tachometer reads of it.</summary>
    public const double AtRest = 1.1 * StandstillSpeed * RadPerSecond;

    /// <summary>A full pack with nothing to drive but the motor, rad/s: nothing turns faster, whatever fails. With a hundredth for the model's steps.</summary>
    public const double TopSpeed = 1.01 * SpeedConstant * FullPack * RadPerSecond;

    public static readonly TimeSpan Period = TimeSpan.FromMilliseconds(5);

    /// <summary>Torque at the current limit over the inertia, rad/s2: nothing on this bench gains speed faster.</summary>
    public const double GreatestAcceleration = CurrentLimit * TorqueConstant / Inertia;

    /// <summary>The same with a shorted controller, which knows no limit: the pack's voltage over its own and the winding's resistance.</summary>
    public const double ShortedAcceleration = FullPack / (WindingResistance + PackResistance) * TorqueConstant / Inertia;

    /// <summary>Throttle of the level, and where the transmitter's stick goes, as a share.</summary>
    public const double Level = 0.35;

    private const double SpeedConstant = 1000;
    private const double TorqueConstant = 60 / (2 * Math.PI * SpeedConstant);
    private const double FullPack = 3 * 4.2;
    private const double WindingResistance = 0.06;
    private const double PackResistance = 0.03;
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
        SecondController = new ControllerProfile
        {
            Mode = ControllerMode.TwoWay, StopPulse = 1500, MinimumPulse = 1000, MaximumPulse = 2000, Direction = PulseDirection.Longer,
            BrakesAtStop = true, WhenPulsesCease = CeasedPulseBehaviour.Stops, ArmingTime = TimeSpan.FromSeconds(0.2),
        },
        Rotor = new Rotor(Inertia, 0.03, 0.08, 10_000),
        Motor = new Motor(SpeedConstant, WindingResistance, 1.2, CurrentLimit),
        Pack = new Pack(3, "LiPo", 1.3, PackResistance),
        StoppingTime = TimeSpan.FromSeconds(0.5),
        LongestCoastDown = TimeSpan.FromSeconds(5),
        MaximumRise = 4,
    };

    public static PluginCatalog Catalog(IDevicePlugin bench) => PluginCatalog.Of("campaign", [bench], Interlocks);

    /// <summary>The rig demands both outputs itself.</summary>
    public static RigDocuments Driven { get; } = With(Procedure(
        new Step
        {
            Kind = StepKind.SpinUp, Throttle = Level, SecondThrottle = -0.5, Ramp = TimeSpan.FromSeconds(0.4), Timeout = TimeSpan.FromSeconds(2),
            Until = [new Condition(ChannelNames.RotorSpeed, ConditionKind.Above, 2000, false, TimeSpan.Zero)],
        },
        new Step { Kind = StepKind.Hold, For = TimeSpan.FromSeconds(0.8), Timeout = TimeSpan.FromSeconds(2) }));

    /// <summary>The receiver's pulse drives, through the gate.</summary>
    public static RigDocuments Gated { get; } = With(Procedure(
        new Step { Kind = StepKind.Gate, For = TimeSpan.FromSeconds(1.8), Timeout = TimeSpan.FromSeconds(3) }));

    private static RigDocuments With(Procedure procedure) =>
        new(Rig(), new DocumentCopy("campaign", ""), Article, new DocumentCopy("campaign-disc", ""), procedure, new DocumentCopy("campaign", ""));

    // All that the assembly makes; which of them the rig has is said below.
    private static IInterlockPlugin[] Interlocks { get; } = [.. typeof(LidClosedPlugin).Assembly.GetExportedTypes()
        .Where(t => !t.IsAbstract && t.IsAssignableTo(typeof(IInterlockPlugin))).Select(t => (IInterlockPlugin)Activator.CreateInstance(t)!)];

    private static RigDefinition Rig() => new()
    {
        Name = "campaign", ScanPeriod = Period, StandstillSpeed = StandstillSpeed, StandstillTime = TimeSpan.FromSeconds(1),
        Devices = [new DeviceDefinition("bench", "faulty-bench", new Dictionary<string, object>(), new Dictionary<string, string>())],
        Interlocks =
        [
            Interlock("lid-closed"), Interlock("lid-locked"), Interlock("stop-clear"), Interlock("failsafe-confirmed"),
            Interlock("over-speed", ("limit", SpeedLimit)),
            Interlock("over-current", ("limit", 35.0), ("for", 0.5), ("peak", 100.0)),
            Interlock("under-voltage", ("limit", 8.0), ("for", 0.2)),
            Interlock("temperature-ceiling", ("channel", ChannelNames.MotorTemperature), ("ceiling", Ceiling), ("rise", 20.0), ("window", 2.0)),
            Interlock("stale-reading", ("channel", ChannelNames.RotorSpeed), ("maximum-age", 0.05)),
            Interlock("energy-ceiling", ("inertia", Inertia), ("limit", 7.9)),
            Interlock("rate-limit", ("channel", ChannelNames.MotorTemperature), ("change", 4.0), ("within", 0.5)),
            Interlock("frozen-reading", ("channel", ChannelNames.BatteryVoltage), ("samples", 40)),
            Interlock("speed-plausible", ("speed-constant", SpeedConstant), ("allowance", 2.0)),
            Interlock("tachometer-jump", ("change", 110_000.0), ("within", 1.0)),
            Interlock("tachometer-lost", ("from", 5.0), ("below", 300.0), ("within", 0.4)),
            Interlock("current-without-power", ("limit", 0.5), ("for", 0.05)),
            Interlock("pack-temperature", ("lowest", 5.0), ("highest", 60.0)),
            Interlock("reverse-current", ("limit", 5.0), ("for", 0.1)),
            Interlock("output-follows", ("tolerance", 100.0), ("within", 0.1)),
            Interlock("power-follows", ("within", 0.1)),
            Interlock("operator-present"),
            Interlock("recorder-behind", ("limit", 25.0)),
            Interlock("scan-late", ("limit", 0.02)),
        ],
    };

    private static InterlockDefinition Interlock(string kind, params (string Name, object Value)[] options) =>
        new(kind, kind, options.ToDictionary(o => o.Name, o => o.Value), null, null, InterlockScope.EveryStep);

    private static Procedure Procedure(params ReadOnlySpan<Step> work) => new()
    {
        Name = "campaign", Repeat = 3, Requires = [], Figures = [],
        Steps =
        [
            new Step { Kind = StepKind.Arm, Timeout = TimeSpan.FromSeconds(3) },
            .. work,
            new Step
            {
                Kind = StepKind.CoastDown, Timeout = TimeSpan.FromSeconds(15),
                Until = [new Condition(ChannelNames.RotorSpeed, ConditionKind.Below, StandstillSpeed, false, TimeSpan.Zero)],
            },
            new Step { Kind = StepKind.Rest, For = TimeSpan.FromSeconds(0.2), Timeout = TimeSpan.FromSeconds(2) },
        ],
    };
}
