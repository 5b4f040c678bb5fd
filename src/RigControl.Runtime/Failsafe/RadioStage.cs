using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using static RigControl.Runtime.Failsafe.VerificationParts;

namespace RigControl.Runtime.Failsafe;

/// <summary>
/// The radio, in stage 3, where the rig reads its receiver: it is lost while its stick drives through the gate, and its return with the stick
/// open moves nothing. The return is looked at armed but without power, so that a gate that leaks shows in the pulse and turns nothing.
/// </summary>
internal sealed class RadioStage(VerificationParts parts)
{
    // us; the shortest pulse that a controller can have. A receiver that gives none reads 0.
    private const double AnyPulse = 500;

    /// <summary>How long the returned link is looked at, s.</summary>
    private const double LookTime = 3;

    // How far from stop the stick counts as open, us: where the gate would no longer open.
    private const double OpenFrom = Configuration.StickAtStop;

    private readonly ControllerProfile _controller = parts.Article.Controller;

    private bool Lengthens => _controller.PulseFor(1) > _controller.StopPulse;

    /// <summary>Empty where no device reads the receiver: then nothing is said of the radio.</summary>
    public static IEnumerable<Step> Steps(VerificationParts parts) => parts.Reads(ChannelNames.ReceiverPulse) ? new RadioStage(parts).Steps() : [];

    private Step[] Steps() =>
    [
        See("radio-ready", Pulses(0.2), new("Switch the transmitter on, its stick at stop.", HandMove.RadioOn)),
        Arm(unpowered: false), Open(),
        parts.Provoke(Loss(), new("Switch the transmitter off, and leave its stick where it is.", HandMove.RadioOff), unpowered: false),
        See("radio-back", Lengthens ? StickOpen(0.2) : Pulses(0.2), new("Switch the transmitter on again, its stick still open; nothing may turn.", HandMove.RadioOn)),
        Arm(unpowered: true),
        parts.Provoke(Return(), null, unpowered: true),
        See("stick-at-stop", StickAtStop(0.2), new("Put the stick back to stop.", HandMove.StickAtStop)),
    ];

    private Step Open() => new()
    {
        Kind = StepKind.Gate, Timeout = Patience, Until = [Above(ChannelNames.RotorSpeed, parts.Turning, 0.2)],
        Hand = new("Push the stick slowly forward until it turns, and leave it there.", HandMove.StickOpen),
    };

    private Provocation Loss() => new()
    {
        Name = "radio-lost", Manner = ProvocationManner.ThroughGate, Expected = TripCauseNames.Of(TripCause.Receiver),
        Evidence = [OutputAtStop(0), parts.PowerOff, parts.SpeedFallen], Allowed = parts.Article.LongestCoastDown,
    };

    private Provocation Return() => new()
    {
        Name = "radio-returns", Manner = ProvocationManner.Rest, Allowed = TimeSpan.FromSeconds(LookTime + 0.5),
        Evidence = [OutputAtStop(LookTime), Below(ChannelNames.OutputPower, 0.5, LookTime), StickOpen(LookTime), .. Lengthens ? Array.Empty<Condition>() : [Pulses(LookTime)]],
    };

    // As near to stop as a stick that is open never is: half of the level, which is enough elsewhere, may be more than the stick asks for.
    private Condition OutputAtStop(double seconds) =>
        Below(ChannelNames.OutputThrottle, OpenFrom / Math.Abs(_controller.PulseFor(1) - _controller.StopPulse) * 100, seconds);

    // Towards a shorter pulse none at all would look open too; where that matters, pulses are asked for besides.
    private Condition StickOpen(double seconds) => Lengthens
        ? Above(ChannelNames.ReceiverPulse, _controller.StopPulse + OpenFrom, seconds)
        : Below(ChannelNames.ReceiverPulse, _controller.StopPulse - OpenFrom, seconds);

    private Condition StickAtStop(double seconds) => Lengthens
        ? Below(ChannelNames.ReceiverPulse, _controller.StopPulse + OpenFrom, seconds)
        : Above(ChannelNames.ReceiverPulse, _controller.StopPulse - OpenFrom, seconds);

    private static Condition Pulses(double seconds) => Above(ChannelNames.ReceiverPulse, AnyPulse, seconds);
}
