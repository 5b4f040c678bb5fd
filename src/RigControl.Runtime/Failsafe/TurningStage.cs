using RigControl.Model.Procedures;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using static RigControl.Runtime.Failsafe.VerificationParts;

namespace RigControl.Runtime.Failsafe;

/// <summary>Stage 3: the lid is locked and the article turns slowly, its rotor removed or harmless at the declared ceiling.</summary>
internal static class TurningStage
{
    /// <summary>Name of the provocation in which the pulses cease.</summary>
    public const string PulsesCease = "pulses-cease";

    /// <summary>How long the stop output must give no speed.</summary>
    private const double RestTime = 5;

    // A; less than any controller with power takes (common practice, no source).
    private const double NoCurrent = 0.5;

    public static IEnumerable<Step> Steps(VerificationParts parts)
    {
        bool ceases = parts.CanCease && parts.Article.Controller.WhenPulsesCease == CeasedPulseBehaviour.Stops;
        return
        [
            Arm(unpowered: false) with { Hand = BeforePower(parts) }, parts.Provoke(Rest(parts), null, unpowered: false),
            .. One(parts, OverSpeed(parts), null), Direction(),
            .. One(parts, Stop(parts), new("Press the stop.", HandMove.PressStop)),
            .. One(parts, Silence(parts), null),
            .. RadioStage.Turning(parts),
            .. One(parts, PowerCut(parts), null),
            .. ceases ? One(parts, Ceased(parts), null) : [],
        ];
    }

    // Power comes on for the first time: who arms it is told what would turn.
    private static HandAct BeforePower(VerificationParts parts) => new(CeilingEnergy.Of(parts.Article, isRemoved: false)!.Asked, HandMove.None);

    private static Step[] One(VerificationParts parts, Provocation provocation, HandAct? hand) =>
        [Arm(unpowered: false), parts.Rise(unpowered: false), parts.Provoke(provocation, hand, unpowered: false)];

    private static Provocation Rest(VerificationParts parts) => new()
    {
        Name = "stop-output-rests", Manner = ProvocationManner.Rest, Evidence = [Below(ChannelNames.RotorSpeed, parts.StandstillSpeed, RestTime)],
        Allowed = TimeSpan.FromSeconds(RestTime + 0.5),
    };

    private static Provocation OverSpeed(VerificationParts parts) => new()
    {
        Name = "over-speed", Manner = ProvocationManner.Awaited, Expected = parts.Id("over-speed"),
        Lowered = new LoweredLimit(parts.Id("over-speed"), "limit", parts.Turning / 2), Evidence = parts.AllStopped, Allowed = parts.Article.LongestCoastDown,
    };

    private static Provocation Stop(VerificationParts parts) => new()
    {
        Name = "stop", Manner = ProvocationManner.Awaited, Expected = parts.Id("stop-clear"), Evidence = parts.AllStopped, Allowed = parts.Article.LongestCoastDown,
    };

    private static Provocation Silence(VerificationParts parts) => new()
    {
        Name = "silence", Manner = ProvocationManner.Silence, Consequences = parts.Ids("output-follows", "power-follows", "current-without-power", "reverse-current"),
        Evidence = parts.AllStopped, Allowed = parts.Article.LongestCoastDown,
    };

    // The demand stays, so that it is the power alone that stops.
    private static Provocation PowerCut(VerificationParts parts) => new()
    {
        Name = "power-cut", Manner = ProvocationManner.PowerCut, Consequences = parts.Ids("output-follows"),
        Evidence = [parts.PowerOff, parts.SpeedFallen, .. parts.Reads(ChannelNames.BatteryCurrent) ? [Below(ChannelNames.BatteryCurrent, NoCurrent)] : Array.Empty<Condition>()],
        Allowed = parts.Article.LongestCoastDown,
    };

    // The power stays, so that it is the controller that stops.
    private static Provocation Ceased(VerificationParts parts) => new()
    {
        Name = PulsesCease, Manner = ProvocationManner.CeasedPulses, Consequences = parts.Ids("output-follows"),
        Evidence = [parts.SpeedFallen, Above(ChannelNames.OutputPower, 0.5)], Allowed = parts.Article.LongestCoastDown,
    };

    private static Step Direction() => new()
    {
        Kind = StepKind.Ask, Timeout = Patience, Written = "direction",
        Question = new Question("direction", "Which way did it turn?", "", 0, 1, 1, ["as it should", "the other way"]),
    };
}
