using RigControl.Contracts;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Serial;
using RigControl.Model.Rig;

namespace RigControl.Devices.RigBoard.Driving;

/// <summary>
/// Feeds the board with the demands of the scan, each echoing the board's latest line, and resets its latched causes when a
/// person arms. The reset is asked for at that act or its rise of power alone, never within a run, and the board still refuses it
/// while any cause stands or anything but stop without power was demanded last. A repeat's own rise, with a
/// cause latched since, ends the device's service: nothing that the board stopped goes on by itself.
/// </summary>
internal sealed class Driver(BoardLink link, BoardConfiguration configuration, TimeSpan scanPeriod, TimeSpan stoppingTime)
{
    /// <summary>The board takes at most 250 lines a second; what lowers the output does not wait.</summary>
    private static readonly TimeSpan Spacing = TimeSpan.FromMilliseconds(4);

    /// <summary>An echo as old as this is refused anyway.</summary>
    private static readonly TimeSpan OldestEcho = TimeSpan.FromMilliseconds(50);

    /// <summary>us; the board takes a little more, so that it does not refuse what has just moved.</summary>
    private const int StickAtStop = 20;

    // Long enough for the board to answer the reset before.
    private static readonly TimeSpan ResetSpacing = TimeSpan.FromMilliseconds(50);

    /// <summary>Time in which every cause must have cleared after arming: several times the longest contact filter.</summary>
    private static readonly TimeSpan ResetTime = TimeSpan.FromSeconds(1);

    private readonly ushort _digest = configuration.Digest;
    private readonly Obedience _obedience = new(configuration, link.Port, scanPeriod, stoppingTime);
    private BoardStatus _status;
    private TimeSpan _heard = TimeSpan.MinValue;
    private BoardDemand _sent;
    private TimeSpan _sentAt = TimeSpan.MinValue;
    private bool _powered;
    private bool _arms;
    private TimeSpan? _resettingSince;
    private TimeSpan _resetSentAt = TimeSpan.MinValue;
    private ushort _resetNumber;
    private ushort? _clearFrom;

    private bool IsLatched => _status.Latched != BoardCauses.None;

    /// <summary>Takes the board's latest status, heard at a host time.</summary>
    public void Hear(in BoardStatus status, TimeSpan at)
    {
        (_status, _heard) = (status, at);
        // A line written before the receipt of the reset may come after it.
        if (_clearFrom is { } clear && !Numbering.Follows(status.Sequence, clear))
            _status.Latched = BoardCauses.None;
        else
            _clearFrom = null;
    }

    /// <summary>Takes the receipt of a host line: after one for the reset nothing is latched any more.</summary>
    /// <param name="sequence">The receipt's own number.</param>
    /// <param name="host">Number of the host line it is for.</param>
    public void HearAccepted(ushort sequence, ushort host)
    {
        if (_resettingSince is null || host != _resetNumber)
            return;
        _resettingSince = null;
        _clearFrom = sequence;
        _status.Latched = BoardCauses.None;
    }

    /// <summary>Sends what the outputs of a scan ask for, or as much of it as the board will take now.</summary>
    public void Apply(TimeSpan now, in OutputImage outputs)
    {
        BoardDemand wanted = BoardDemand.Of(outputs, configuration);
        bool rises = (outputs.Power && !_powered) || (outputs.OperatorArms && !_arms);
        if (rises && IsLatched)
            BeginReset(now, outputs.OperatorArms);
        (_powered, _arms) = (outputs.Power, outputs.OperatorArms);
        if (!wanted.Power && !outputs.OperatorArms)
            _resettingSince = null;
        // Without a fresh line to echo, the board would refuse whatever is said.
        if (_heard < now - OldestEcho)
            return;
        RequireObedience(wanted, now);
        Send(IsLatched ? wanted.Stopped(configuration) : wanted with { Gate = wanted.Gate && GateMayOpen() }, now);
        bool mayAsk = !_sent.Power && !_sent.Drives(configuration);
        if (_resettingSince is not null && mayAsk && now - ResetSpacing >= _resetSentAt)
            SendReset(now);
    }

    // The board opens its gate only on a stick at stop, and a demand that it refuses is no sign of life.
    private bool GateMayOpen() =>
        _status.Has(BoardBits.GateOpen) || (_status.Receiver != 0 && Math.Abs(_status.Receiver - configuration.StopPulse) < StickAtStop);

    private void BeginReset(TimeSpan now, bool operatorArms)
    {
        if (!operatorArms)
            throw new DeviceException($"the board on {link.Port} stopped by itself since power was last off ({_status.Latched.InWords()}); a repeat may not undo that: end the session, look for the cause and begin again");
        (_resettingSince, _resetSentAt) = (now, TimeSpan.MinValue);
    }

    private void RequireObedience(in BoardDemand wanted, TimeSpan now)
    {
        if (_resettingSince is { } since && now - since > ResetTime)
            throw new DeviceException($"the board on {link.Port} does not let itself be reset: {_status.Latched.InWords()}. Clear the cause, then begin again");
        if (_obedience.Fault(wanted, _status, _resettingSince is not null, now) is { } fault)
            throw new DeviceException(fault);
    }

    private void Send(in BoardDemand demand, TimeSpan now)
    {
        if (now - Spacing < _sentAt && !demand.Lowers(_sent, configuration))
            return;
        link.Begin("drive"u8).Writer.Hex(_status.Sequence).Hex(_digest)
            .Decimal(demand.Pulse).Flag(demand.Power).Flag(demand.Release).Flag(demand.Marker)
            .Decimal(demand.Second).Flag(demand.Gate);
        link.Send();
        (_sent, _sentAt) = (demand, now);
    }

    private void SendReset(TimeSpan now)
    {
        (LineWriter line, _resetNumber) = link.Begin("reset"u8);
        line.Hex(_status.Sequence);
        link.Send();
        _resetSentAt = now;
    }
}
