using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using static RigControl.Runtime.Failsafe.VerificationParts;

namespace RigControl.Runtime.Failsafe;

/// <summary>
/// The radio, where the rig reads its receiver. In stage 2 it is lost with the power off, where only the pulse follows the stick; in stage 3
/// while its stick drives through the gate, and its return with the stick open moves nothing. The return is looked at armed but without
/// power, so that a gate that leaks shows in the pulse and turns nothing.
/// </summary>
internal sealed class RadioStage(VerificationParts parts)
{
    /// <summary>Name of the provocation in which the radio is lost while it drives.</summary>
    public const string Lost = "radio-lost";

    // us; the shortest pulse that a controller can have. A receiver that gives none reads 0.
    private const double AnyPulse = 500;

    /// <summary>How long the returned link is looked at, s.</summary>
    private const double LookTime = 3;

    // How far from stop the stick counts as open, us: where the gate would no longer open.
    private const double OpenFrom = Configuration.StickAtStop;

    private readonly ControllerProfile _controller = parts.Article.Controller;

    private bool Lengthens => _controller.PulseFor(1) > _controller.StopPulse;

    /// <summary>With the power off. Empty where no device reads the receiver: then nothing is said of the radio.</summary>
    public static IEnumerable<Step> WithoutPower(VerificationParts parts) => parts.Reads(ChannelNames.ReceiverPulse) ? new RadioStage(parts).WithoutPower() : [];

    /// <summary>While it drives. Empty where no device reads the receiver.</summary>
    public static IEnumerable<Step> Turning(VerificationParts parts) => parts.Reads(ChannelNames.ReceiverPulse) ? new RadioStage(parts).Turning() : [];

    private Step[] WithoutPower() =>
    [
        Ready("pulse-radio-ready"), Arm(unpowered: true), Open(unpowered: true), Lose(Loss("pulse-radio", SignalAllowed), unpowered: true),
        See("pulse-radio-back", Pulses(0.2), new("Switch the transmitter on again.", HandMove.RadioOn)), PutBack("pulse-stick-at-stop"),
    ];

    private Step[] Turning() =>
    [
        Ready("radio-ready"), Arm(unpowered: false), Open(unpowered: false),
        Lose(Loss(Lost, parts.Article.LongestCoastDown, parts.PowerOff, parts.SpeedFallen), unpowered: false),
        See("radio-back", Lengthens ? StickOpen(0.2) : Pulses(0.2), new("Switch the transmitter on again, its stick still open; nothing may turn.", HandMove.RadioOn)),
        Arm(unpowered: true),
        parts.Provoke(Return(), null, unpowered: true),
        PutBack("stick-at-stop"),
    ];

    private Step Ready(string name) => See(name, Pulses(0.2), new("Switch the transmitter on, its stick at stop.", HandMove.RadioOn));

    private Step PutBack(string name) => See(name, StickAtStop(0.2), new("Put the stick back to stop.", HandMove.StickAtStop));

    private Step Open(bool unpowered) => new()
    {
        Kind = StepKind.Gate, Timeout = Patience, Unpowered = unpowered,
        Until = [unpowered ? Above(ChannelNames.OutputThrottle, AtStop, 0.2) : Above(ChannelNames.RotorSpeed, parts.Turning, 0.2)],
        Hand = unpowered
            ? new($"Push the stick a little forward, no further than {parts.Level * 100:0} %, and leave it there; nothing turns, the power is off.", HandMove.StickOpen)
            : new("Push the stick slowly forward until it turns, and leave it there.", HandMove.StickOpen),
    };

    private Step Lose(Provocation loss, bool unpowered) =>
        parts.Provoke(loss, new("Switch the transmitter off, and leave its stick where it is.", HandMove.RadioOff), unpowered);

    private Provocation Loss(string name, TimeSpan allowed, params Condition[] also) => new()
    {
        Name = name, Manner = ProvocationManner.ThroughGate, Expected = TripCauseNames.Of(TripCause.Receiver),
        Evidence = [OutputAtStop(0), .. also], Allowed = allowed,
    };

    private Provocation Return() => new()
    {
        Name = "radio-returns", Manner = ProvocationManner.Rest, Allowed = TimeSpan.FromSeconds(LookTime + 0.5),
        Evidence = [OutputAtStop(LookTime), Below(ChannelNames.OutputPower, 0.5, LookTime), StickOpen(LookTime), .. Lengthens ? Array.Empty<Condition>() : [Pulses(LookTime)]],
    };

    // As near to stop as a stick that is open never is: half of the level, which is enough elsewhere, may be more than the stick asks for. %
    private double AtStop => OpenFrom / Math.Abs(_controller.PulseFor(1) - _controller.StopPulse) * 100;

    private Condition OutputAtStop(double seconds) => Below(ChannelNames.OutputThrottle, AtStop, seconds);

    // Towards a shorter pulse none at all would look open too; where that matters, pulses are asked for besides.
    private Condition StickOpen(double seconds) => Lengthens
        ? Above(ChannelNames.ReceiverPulse, _controller.StopPulse + OpenFrom, seconds)
        : Below(ChannelNames.ReceiverPulse, _controller.StopPulse - OpenFrom, seconds);

    private Condition StickAtStop(double seconds) => Lengthens
        ? Below(ChannelNames.ReceiverPulse, _controller.StopPulse + OpenFrom, seconds)
        : Above(ChannelNames.ReceiverPulse, _controller.StopPulse - OpenFrom, seconds);

    private static Condition Pulses(double seconds) => Above(ChannelNames.ReceiverPulse, AnyPulse, seconds);
}
