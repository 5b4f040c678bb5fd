using RigControl.Model.Procedures;
using RigControl.Model.Signals;
using static RigControl.Runtime.Failsafe.VerificationParts;

namespace RigControl.Runtime.Failsafe;

/// <summary>
/// Stage 2: pulses are live and the power is off, so that nothing can move. On lid and stop the host goes on demanding, so that
/// it is the board that is seen to stop; a lowered limit proves the host's own way.
/// </summary>
internal static class PulseStage
{
    public static IEnumerable<Step> Steps(VerificationParts parts) =>
        [.. ByTheBoard(parts), .. RadioStage.WithoutPower(parts), .. parts.Ids("temperature-ceiling").SelectMany(id => One(parts, Heat(parts, id), null))];

    /// <summary>
    /// Asked after a board's start, where no power is proven to go: with the pack off the controller nothing turns whatever the contactor does. At
    /// the controller's own plug, since what a rig reads of its pack is on the other side, and an interlock may want it there. There is one answer:
    /// whoever cannot give it stops, or lets the time go by, and no pulse is made.
    /// </summary>
    public static Step PackDisconnected => new()
    {
        Kind = StepKind.Ask, Timeout = Patience, Written = "pack-disconnected",
        Question = new Question(
            "pack-disconnected", "Pull the controller's power plug, so that the pack is off it, and leave it so until the verification is done. Is it off? If not, stop (SPACE).", "", 0, 0, 1, ["it is off"]),
    };

    /// <summary>What the board stops by itself: lid, stop and silence.</summary>
    public static IEnumerable<Step> ByTheBoard(VerificationParts parts) =>
    [
        .. One(parts, Lid(parts), new("Open the lid; where a bolt holds it, by the bolt's auxiliary release.", HandMove.OpenLid)),
        .. One(parts, Stop(parts), new("Press the stop.", HandMove.PressStop)),
        .. One(parts, Silence(parts), null),
    ];

    private static Step[] One(VerificationParts parts, Provocation provocation, HandAct? hand) =>
        [Arm(unpowered: true), parts.Rise(unpowered: true), parts.Provoke(provocation, hand, unpowered: true)];

    private static Provocation Lid(VerificationParts parts) => new()
    {
        Name = "pulse-lid", Manner = ProvocationManner.Awaited, Expected = parts.Id("lid-closed"), Consequences = parts.Ids("lid-locked", "output-follows"),
        Evidence = [parts.OutputStopped], Allowed = SignalAllowed,
    };

    private static Provocation Stop(VerificationParts parts) => new()
    {
        Name = "pulse-stop", Manner = ProvocationManner.Awaited, Expected = parts.Id("stop-clear"), Consequences = parts.Ids("output-follows"),
        Evidence = [parts.OutputStopped], Allowed = SignalAllowed,
    };

    private static Provocation Silence(VerificationParts parts) => new()
    {
        Name = "pulse-silence", Manner = ProvocationManner.Silence, Consequences = parts.Ids("output-follows", "power-follows"),
        Evidence = [parts.OutputStopped], Allowed = SignalAllowed,
    };

    // The lowest ceiling that the interlock takes, below any room that people work in.
    private static Provocation Heat(VerificationParts parts, string id) => new()
    {
        Name = "pulse-heat-" + id, Manner = ProvocationManner.Awaited, Expected = id, Lowered = new LoweredLimit(id, "ceiling", 1),
        Evidence = [parts.OutputStopped], Allowed = SignalAllowed,
    };
}
