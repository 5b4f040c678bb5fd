using RigControl.Model.Procedures;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Runtime.Failsafe;

/// <summary>What the stages of a verification are made of.</summary>
internal sealed class VerificationParts(RigDefinition rig, Article article, IReadOnlyList<Channel> channels, bool ceasesPulses)
{
    /// <summary>Share of the ceiling's speed from which on the article counts as turning.</summary>
    public const double TurningShare = 0.3;

    /// <summary>Longest time for a person to do what is asked.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    /// <summary>
    /// Longest time until the output is at stop, from the provocation: the board's own (docs/board.md: 100 ms without a host, and a servo
    /// frame of 22 ms at the slowest rate) and the time until the host has read it.
    /// </summary>
    public static readonly TimeSpan SignalAllowed = TimeSpan.FromMilliseconds(200);

    /// <summary>
    /// Longest time until the power is off, from the provocation: <see cref="SignalAllowed"/>, in which the board has ended its power wave (after
    /// 100 ms without a host) and let go of the coil (20 ms later, docs/board.md), and the time in which the rig file wants the contactor to
    /// follow, the shortest where several say so. Where none does, the contactor must open within the first. The article's stopping time is no part
    /// of it: a verification's stop is never one under power.
    /// </summary>
    public static TimeSpan PowerAllowed(RigDefinition rig) => SignalAllowed + TimeSpan.FromSeconds(rig.Interlocks
        .Where(i => i is { Plugin: "power-follows", Scope: InterlockScope.EveryStep })
        .Select(i => i.Options.GetValueOrDefault("within") is double within ? within : 0).DefaultIfEmpty(0).Min());

    public Article Article => article;

    public double Level => article.Verification!.Throttle;

    /// <summary>rpm.</summary>
    public double Turning => article.Verification!.Speed * TurningShare;

    public double StandstillSpeed => rig.StandstillSpeed;

    public bool Reads(string channel) => channels.Any(c => c.Name == channel);

    /// <summary>Whether the output can be asked for no pulses under power.</summary>
    public bool CanCease => ceasesPulses;

    /// <summary>Interlocks of some kinds that the rig has, by id.</summary>
    public IReadOnlyList<string> Ids(params string[] kinds) =>
        [.. rig.Interlocks.Where(i => kinds.Contains(i.Plugin) && i.Scope == InterlockScope.EveryStep).Select(i => i.Id)];

    public string Id(string kind) => Ids(kind)[0];

    /// <summary>The output is at stop: less than half of the level goes out.</summary>
    public Condition OutputStopped => Below(ChannelNames.OutputThrottle, Level * 100 / 2);

    public Condition PowerOff => Below(ChannelNames.OutputPower, 0.5);

    /// <summary>The speed has fallen to half of what counts as turning.</summary>
    public Condition SpeedFallen => Below(ChannelNames.RotorSpeed, Turning / 2);

    /// <summary>Output and power gone and the speed falling: what every stop of stage 3 comes to.</summary>
    public IReadOnlyList<Condition> AllStopped => [OutputStopped, PowerOff, SpeedFallen];

    public static Condition Below(string channel, double value, double seconds = 0) =>
        new(channel, ConditionKind.Below, value, false, TimeSpan.FromSeconds(seconds));

    public static Condition Above(string channel, double value, double seconds = 0) =>
        new(channel, ConditionKind.Above, value, false, TimeSpan.FromSeconds(seconds));

    /// <summary>Waits for a sign with nothing live.</summary>
    public static Step See(string name, Condition sign, HandAct? hand) => new()
    {
        Kind = StepKind.Observe, Until = [sign], Hand = hand, Timeout = Patience, Written = name,
    };

    /// <summary>Arms, by the three acts of every run.</summary>
    public static Step Arm(bool unpowered) => new() { Kind = StepKind.Arm, Timeout = TimeSpan.FromSeconds(20), Unpowered = unpowered };

    public Step Rise(bool unpowered) => new()
    {
        Kind = StepKind.SpinUp, Throttle = Level, Ramp = TimeSpan.FromSeconds(0.5), Timeout = TimeSpan.FromSeconds(10), Unpowered = unpowered,
        Until = unpowered ? [] : [Above(ChannelNames.RotorSpeed, Turning, 0.2)],
    };

    public Step Provoke(Provocation provocation, HandAct? hand, bool unpowered) => new()
    {
        Kind = StepKind.Provoke, Provocation = provocation, Hand = hand, Unpowered = unpowered, Timeout = Patience,
        Throttle = provocation.Manner is ProvocationManner.Rest or ProvocationManner.ThroughGate ? 0 : Level,
    };
}
