using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Rehearsal.Tests;

/// <summary>The disc of the school workshop, in a box without interlocks but those that a test adds.</summary>
internal static class Workshop
{
    public static readonly RigDefinition Rig = new()
    {
        Name = "box", ScanPeriod = TimeSpan.FromMilliseconds(5), Devices = [], Interlocks = [],
        StandstillSpeed = 60, StandstillTime = TimeSpan.FromSeconds(1), EnclosureRating = 400,
    };

    public static readonly Article Disc = new()
    {
        Name = "disc-180",
        Controller = new ControllerProfile
        {
            Mode = ControllerMode.OneWay, StopPulse = 1000, MinimumPulse = 1000, MaximumPulse = 2000, Direction = PulseDirection.Longer,
            BrakesAtStop = false, WhenPulsesCease = CeasedPulseBehaviour.Stops, ArmingTime = TimeSpan.FromSeconds(2),
        },
        Rotor = new Rotor(1.8225e-4, 0.045, 0.18, 10_000),
        Motor = new Motor(1000, 0.08, 1.2, 30),
        Pack = new Pack(3, "LiPo", 1.3, 0.03),
        StoppingTime = TimeSpan.FromSeconds(0.5), LongestCoastDown = TimeSpan.FromSeconds(60), MaximumRise = 2,
    };

    public static Procedure SpinUp(double throttle = 0.5) => new()
    {
        Name = "spin-up", Repeat = 1, Requires = [], Figures = ["peak-speed", "coast-down-time"],
        Steps =
        [
            new Step { Kind = StepKind.Arm, Timeout = TimeSpan.FromSeconds(10) },
            new Step
            {
                Kind = StepKind.SpinUp, Throttle = throttle, Ramp = TimeSpan.FromSeconds(1), Timeout = TimeSpan.FromSeconds(20),
                Until = [new Condition(ChannelNames.RotorSpeed, ConditionKind.SteadyWithin, 0.02, true, TimeSpan.FromSeconds(0.3))],
            },
            new Step { Kind = StepKind.Hold, Throttle = throttle, For = TimeSpan.FromSeconds(1), Timeout = TimeSpan.FromSeconds(2) },
            new Step
            {
                Kind = StepKind.CoastDown, Timeout = TimeSpan.FromSeconds(60),
                Until = [new Condition(ChannelNames.RotorSpeed, ConditionKind.Below, 60, false, TimeSpan.Zero)],
            },
        ],
    };

    public static RehearsalPlan Plan(double throttle = 0.5, RigDefinition? rig = null, Article? article = null, params BoundInterlock[] interlocks) =>
        RehearsalPlan.Of(rig ?? Rig, article ?? Disc, SpinUp(throttle), interlocks, []);

    /// <summary>The spin-up with other figures.</summary>
    public static RehearsalPlan Asking(params string[] figures) => RehearsalPlan.Of(Rig, Disc, SpinUp() with { Figures = figures }, [], []);

    /// <summary>A hold and a rest long enough to show how the motor warms and cools.</summary>
    public static RehearsalPlan Heating(RigDefinition rig)
    {
        Step[] steps = [.. SpinUp(0.8).Steps.Select(s => s.Kind == StepKind.Hold ? s with { For = TimeSpan.FromSeconds(60), Timeout = TimeSpan.FromSeconds(61) } : s)];
        Step rest = new() { Kind = StepKind.Rest, For = TimeSpan.FromSeconds(200), Timeout = TimeSpan.FromSeconds(201) };
        return RehearsalPlan.Of(rig, Disc, SpinUp(0.8) with { Steps = [.. steps, rest], Figures = ["continuous-current", "time-to-limit"] }, [], []);
    }

    /// <summary>Trips above a speed.</summary>
    public static BoundInterlock Ceiling(double rpm) => new("ceiling", new SpeedCeiling(rpm), InterlockScope.EveryStep, ResetPolicy.Operator);

    private sealed class SpeedCeiling(double limit) : IInterlock
    {
        public Demand Evaluate(in InterlockInput input, ref InterlockMemory memory)
        {
            double speed = input[0].Maximum, margin = (limit - speed) / limit;
            return speed <= limit ? Demand.Proceed(0, speed, limit, margin, input.Now) : Demand.Object(DemandAction.StopOutput, 1, 0, speed, limit, margin, input.Now);
        }

        public string Explain(in Demand demand) => $"{demand.Value:0} rpm of {demand.Limit:0} rpm";
    }
}
