using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>A rig, an article and a procedure made ready for the scan: names have become places, files have become numbers.</summary>
public sealed class Configuration
{
    internal Configuration(ConfigurationParts parts)
    {
        Channels = [.. parts.Channels];
        Interlocks = [.. parts.Interlocks];
        Steps = [.. parts.Steps];
        Repeats = parts.Procedure.Repeat;
        Ceiling = parts.Procedure.Verification;
        Controller = parts.Article.Controller;
        SecondController = parts.Article.SecondController;
        StoppingTime = parts.Article.StoppingTime;
        LongestCoastDown = parts.Article.LongestCoastDown;
        MaximumRise = parts.Article.MaximumRise;
        ScanPeriod = parts.Rig.ScanPeriod;
        LateAfter = new TimeSpan(ScanPeriod.Ticks * 3 / 2);
        LongestGap = new TimeSpan(ScanPeriod.Ticks * GapInPeriods);
        StandstillSpeed = parts.Rig.StandstillSpeed;
        StandstillTime = parts.Rig.StandstillTime;
        SpeedChannel = Place(ChannelNames.RotorSpeed);
        LockChannel = Place(ChannelNames.EnclosureLock);
        LidChannel = Place(ChannelNames.EnclosureLid);
        PowerChannel = Place(ChannelNames.OutputPower);
        RestChannel = Place(ChannelNames.LeftAtRest);
        HasRotor = parts.Article.Rotor is not null;
        ReceiverChannel = Place(ChannelNames.ReceiverPulse);
        for (int i = 0; i < Interlocks.Length; i++)
        {
            bool standsIn = Ceiling is not null && Interlocks[i].ProvesFailsafe;
            if (Interlocks[i].Scope == InterlockScope.EveryStep && !standsIn)
                AlwaysCounting |= 1u << i;
        }
    }

    /// <summary>Warning before every rise of the output. Common practice; a rig file cannot shorten it.</summary>
    public static readonly TimeSpan WarningTime = TimeSpan.FromSeconds(3);

    /// <summary>Longest wait for the operator's start once everything is ready: whoever does not start within it has turned to something else.</summary>
    public static readonly TimeSpan StartDeadline = TimeSpan.FromSeconds(60);

    /// <summary>How long the marker light shows: three frames of a film at 30 a second.</summary>
    public static readonly TimeSpan MarkTime = TimeSpan.FromMilliseconds(100);

    /// <summary>
    /// How far the receiver's pulse may lie from stop when its gate opens, us: more than receivers jitter, less than a controller
    /// turns at (common practice, no source). The board holds the same bound.
    /// </summary>
    public const double StickAtStop = 25;

    /// <summary>How exactly the receiver's pulse is read, us: boards tell it in whole ones.</summary>
    public const double ReceiverResolution = 1;

    /// <summary>Late scans in a row that trip: one is chance, three are a machine that cannot keep up.</summary>
    public const int LateScansAllowed = 3;

    /// <summary>Gap between two scans, in periods, that counts as three late ones: with that the rig has been out of sight for too long already.</summary>
    public const int GapInPeriods = 10;

    internal readonly Channel[] Channels;
    internal readonly BoundInterlock[] Interlocks;
    internal readonly CompiledStep[] Steps;
    internal readonly ControllerProfile Controller;
    internal readonly ControllerProfile? SecondController;
    internal readonly uint AlwaysCounting;

    public int Repeats { get; }

    /// <summary>Ceiling of a verification; null in an ordinary run.</summary>
    public VerificationCeiling? Ceiling { get; }

    internal KernelMode Mode => Ceiling is null ? KernelMode.Run : KernelMode.Verification;

    public TimeSpan ScanPeriod { get; }

    /// <summary>Time since the scan before, above which a scan is late: one and a half periods.</summary>
    public TimeSpan LateAfter { get; }

    /// <summary>Time since the scan before, above which the scan has lost sight of the rig.</summary>
    public TimeSpan LongestGap { get; }

    public TimeSpan StoppingTime { get; }

    public TimeSpan LongestCoastDown { get; }

    public double MaximumRise { get; }

    public double StandstillSpeed { get; }

    public TimeSpan StandstillTime { get; }

    public int SpeedChannel { get; }

    public int LockChannel { get; }

    public int LidChannel { get; }

    public int ReceiverChannel { get; }

    /// <summary>Place of the contactor's feedback.</summary>
    public int PowerChannel { get; }

    /// <summary>Place of what the host knows of the rotor from before this session.</summary>
    public int RestChannel { get; }

    /// <summary>Whether something is mounted that stores energy.</summary>
    public bool HasRotor { get; }

    /// <summary>Pulse at which the controller drives nothing, us.</summary>
    public double StopPulse => Controller.StopPulse;

    /// <summary>How far from stop the pulse of a throttle lies, us; where the controller has two sides, on its shorter one.</summary>
    internal double ReachOf(double throttle)
    {
        double reach = Math.Abs(Controller.PulseFor(throttle) - StopPulse);
        return Controller.GoesBelowStop ? Math.Min(reach, Math.Abs(Controller.PulseFor(-throttle) - StopPulse)) : reach;
    }

    /// <summary>Pulse at which what is on the second output drives nothing, us; 0, no pulse, where nothing is on it.</summary>
    public double SecondStopPulse => SecondController?.StopPulse ?? 0;

    /// <summary>Time at the stop pulses after power-on until everything on the outputs obeys.</summary>
    internal TimeSpan ArmingTime => SecondController is { } second && second.ArmingTime > Controller.ArmingTime ? second.ArmingTime : Controller.ArmingTime;

    public int StepCount => Steps.Length;

    public int InterlockCount => Interlocks.Length;

    /// <summary>The rig's channels in the order of the input image.</summary>
    public ReadOnlySpan<Channel> ChannelList => Channels;

    /// <summary>One interlock in its place.</summary>
    public BoundInterlock InterlockAt(int index) => Interlocks[index];

    /// <summary>One step, as compiled.</summary>
    public CompiledStep StepAt(int index) => Steps[index];

    private int Place(string name) => Array.FindIndex(Channels, c => c.Name == name);
}

/// <summary>An interlock of the rig in its place.</summary>
/// <param name="Id">As the rig file names it.</param>
/// <param name="Interlock">The pure decision.</param>
/// <param name="Scope">Where its demand counts.</param>
/// <param name="Reset">What lets its latch go.</param>
/// <param name="ProvesFailsafe">Whether it asks for the failsafe proof, in whose place a verification has its ceiling.</param>
public sealed record BoundInterlock(string Id, IInterlock Interlock, InterlockScope Scope, ResetPolicy Reset, bool ProvesFailsafe = false);

/// <summary>A step with places instead of names.</summary>
/// <param name="Counting">Interlocks of named steps that count during the step, one bit each.</param>
/// <param name="Permissives">Interlocks asked at the entry, one bit each.</param>
/// <param name="Question">What only an answer ends; null for the other steps.</param>
/// <param name="Marks">Whether the marker light shows at the entry.</param>
public sealed record CompiledStep(
    StepKind Kind, double Throttle, double SecondThrottle, TimeSpan Ramp, TimeSpan? For, TimeSpan Timeout, CompiledCondition[] Until, uint Counting, uint Permissives,
    Question? Question, bool Marks)
{
    /// <summary>What the step provokes; null outside a verification.</summary>
    public CompiledProvocation? Provocation { get; init; }

    /// <summary>What the step is called where it has a name of its own; else empty.</summary>
    public string Written { get; init; } = "";

    /// <summary>What a person does in the step; null where nobody has to.</summary>
    public HandAct? Hand { get; init; }

    /// <summary>Whether the power stays off although the rig is armed.</summary>
    public bool Unpowered { get; init; }

    /// <summary>Whether the receiver's pulse goes through in this step.</summary>
    public bool PassesReceiver => Kind == StepKind.Gate || Provocation?.Manner == ProvocationManner.ThroughGate;

    /// <summary>Whether an output goes further from stop than it is, or to the other side of it.</summary>
    /// <param name="throttle">Where the first is, as a share.</param>
    /// <param name="second">Where the second is, as a share.</param>
    public bool RisesFrom(double throttle, double second) =>
        Kind == StepKind.SpinUp && (Rises(throttle, Throttle) || Rises(second, SecondThrottle));

    private static bool Rises(double from, double to) => to > 0 ? to > from : to < from;
}

/// <summary>A provocation with places instead of names.</summary>
/// <param name="Expected">Place of the interlock that is expected to object, or -1.</param>
/// <param name="ExpectedCause">The kernel's own cause that is expected, or none.</param>
/// <param name="Consequences">Interlocks that follow from it, one bit each.</param>
/// <param name="Evidence">What must be seen, all at once.</param>
/// <param name="Allowed">Longest time until then.</param>
/// <param name="LoweredPlace">Place of the interlock whose limit is lower, or -1.</param>
/// <param name="Lowered">The same interlock with the lower limit; null where none is lowered.</param>
public sealed record CompiledProvocation(
    string Name, ProvocationManner Manner, int Expected, TripCause ExpectedCause, uint Consequences, CompiledCondition[] Evidence, TimeSpan Allowed,
    int LoweredPlace, IInterlock? Lowered);

/// <summary>A condition with a place instead of a name.</summary>
public sealed record CompiledCondition(int Channel, ConditionKind Kind, double Value, bool Relative, TimeSpan For);
