using RigControl.Devices.SimulatedRig;
using RigControl.Interlocks;
using RigControl.Runtime.Failsafe;

namespace RigControl.Runtime.Tests.Support;

/// <summary>
/// A small, lively rotor on the simulated bench, so that a whole procedure takes a few seconds of rig time, with whatever
/// devices and interlocks a test adds.
/// </summary>
internal sealed class TestRig
{
    public TimeSpan Period { get; init; } = TimeSpan.FromMilliseconds(5);

    public int Repeat { get; init; } = 1;

    /// <summary>Steps instead of the usual ones.</summary>
    public Step[]? Steps { get; init; }

    public TimeProvider Time { get; init; } = TimeProvider.System;

    /// <summary>Further devices by id.</summary>
    public Dictionary<string, Func<DeviceContext, IDevice>> Devices { get; init; } = [];

    /// <summary>Further interlocks by id.</summary>
    public Dictionary<string, Func<InterlockContext, IInterlock>> Interlocks { get; init; } = [];

    /// <summary>Interlocks of the rig that another plugin makes, by id.</summary>
    public Dictionary<string, Func<InterlockContext, IInterlock>> Replaced { get; init; } = [];

    /// <summary>Channels renamed, by id of the device.</summary>
    public Dictionary<string, Dictionary<string, string>> Renamed { get; init; } = [];

    /// <summary>Options of the bench, such as <c>stop-pressed-at</c>.</summary>
    public Dictionary<string, object> Bench { get; init; } = [];

    /// <summary>Whether it is the failsafe that is verified, in place of a procedure.</summary>
    public VerificationScope? Verifies { get; init; }

    /// <summary>What is driven.</summary>
    public Article Article { get; init; } = SmallDisc;

    public static Article SmallDisc { get; } = new()
    {
        Name = "small-disc",
        Controller = new ControllerProfile
        {
            Mode = ControllerMode.OneWay, StopPulse = 1000, MinimumPulse = 1000, MaximumPulse = 2000, Direction = PulseDirection.Longer,
            BrakesAtStop = true, WhenPulsesCease = CeasedPulseBehaviour.Stops, ArmingTime = TimeSpan.FromSeconds(0.5),
        },
        Rotor = new Rotor(4e-5, 0.03, 0.08, 10_000),
        Motor = new Motor(1000, 0.06, 1.2, 30),
        Pack = new Pack(3, "LiPo", 1.3, 0.03),
        StoppingTime = TimeSpan.FromSeconds(0.5),
        LongestCoastDown = TimeSpan.FromSeconds(20),
        MaximumRise = 4,
        Verification = new VerificationCeiling(0.15, 3000),
    };

    public PluginCatalog Catalog => PluginCatalog.Of(
        "test",
        [new SimulatedRigPlugin(), .. Devices.Select(d => new ToyDevicePlugin(d.Key, d.Value))],
        [.. BuiltIn.Where(p => !Replaced.ContainsKey(p.Kind)), .. Replaced.Concat(Interlocks).Select(i => new ToyInterlockPlugin(i.Key, i.Value))]);

    private static IInterlockPlugin[] BuiltIn =>
    [
        new LidClosedPlugin(), new LidLockedPlugin(), new TemperatureCeilingPlugin(), new OutputFollowsPlugin(), new PowerFollowsPlugin(), new StopClearPlugin(), new FailsafeConfirmedPlugin(), new OverSpeedPlugin(),
    ];

    public RigDocuments Documents => new(
        Rig(), new DocumentCopy("test", ""), Article, new DocumentCopy("small-disc", ""), Procedure(), new DocumentCopy("test", ""))
    {
        Verifies = Verifies,
    };

    /// <summary>The rig, its failsafe confirmed unless told otherwise.</summary>
    public AssembledRig Assemble(ulong seed = 1, bool confirm = true)
    {
        AssembledRig rig = new RigAssembler(Catalog, Time).Assemble(Documents, seed);
        if (confirm)
            rig.ConfirmFailsafe();
        return rig;
    }

    private RigDefinition Rig() => new()
    {
        Name = "test", ScanPeriod = Period, StandstillSpeed = 60, StandstillTime = TimeSpan.FromSeconds(0.5),
        Devices = [.. Devices.Keys.Select(id => Device(id, id, [])), Device("bench", "simulated-rig", Bench)],
        Interlocks =
        [
            Interlock("lid-closed"), Interlock("stop-clear"), Interlock("failsafe-confirmed"), Interlock("over-speed", ("limit", 6000.0)),
            .. Interlocks.Keys.Select(id => Interlock(id)),
        ],
    };

    private DeviceDefinition Device(string id, string kind, Dictionary<string, object> options) =>
        new(id, kind, options, Renamed.GetValueOrDefault(id, []));

    private static InterlockDefinition Interlock(string kind, params (string Name, object Value)[] options) =>
        new(kind, kind, options.ToDictionary(o => o.Name, o => o.Value), null, null, InterlockScope.EveryStep);

    private Procedure Procedure() => new()
    {
        Name = "test", Repeat = Repeat, Requires = [], Figures = [],
        Steps = Steps ??
        [
            new Step { Kind = StepKind.Arm, Timeout = TimeSpan.FromSeconds(3) },
            new Step
            {
                Kind = StepKind.SpinUp, Throttle = 0.35, Ramp = TimeSpan.FromSeconds(0.4), Timeout = TimeSpan.FromSeconds(2),
                Until = [new Condition(ChannelNames.RotorSpeed, ConditionKind.Above, 2000, false, TimeSpan.Zero)],
            },
            new Step { Kind = StepKind.Hold, For = TimeSpan.FromSeconds(0.3), Timeout = TimeSpan.FromSeconds(2) },
            new Step
            {
                Kind = StepKind.CoastDown, Timeout = TimeSpan.FromSeconds(15),
                Until = [new Condition(ChannelNames.RotorSpeed, ConditionKind.Below, 60, false, TimeSpan.Zero)],
            },
            new Step { Kind = StepKind.Rest, For = TimeSpan.FromSeconds(0.2), Timeout = TimeSpan.FromSeconds(2) },
        ],
    };
}
