using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Readings;

namespace RigControl.Devices.RigBoard.Driving;

/// <summary>
/// Compares what the host demands with what the board does. A host that goes on demanding power or pulses while the board
/// has stopped by itself has no interlock that saw the cause; a pulse that is read back as another one is a fault of the
/// output. Either ends the device's service, which stops the rig.
/// </summary>
/// <param name="configuration">What the board holds.</param>
/// <param name="port">What a person calls the board's port.</param>
/// <param name="scanPeriod">Time between scans.</param>
/// <param name="stoppingTime">Time for which the host may keep power on after it stopped the output.</param>
internal sealed class Obedience(BoardConfiguration configuration, string port, TimeSpan scanPeriod, TimeSpan stoppingTime)
{
    // A pulse is measured once a frame of 20 ms and told in the next line; twelve frames are no delay any more.
    private static readonly TimeSpan ReadBackTime = TimeSpan.FromMilliseconds(250);

    /// <summary>Twice the read-back's error, so that it takes a wrong pulse and not noise.</summary>
    private const int WrongPulse = 2 * ThrottleOfPulse.ReadBackError;

    private readonly TimeSpan _hostTime = scanPeriod * 5 > ReadBackTime ? scanPeriod * 5 : ReadBackTime;
    private Lasting _drivenThough;
    private Lasting _poweredThough;
    private Lasting _wrongPulse;
    private int _pulse;

    /// <summary>Why the board can no longer be used, or null.</summary>
    /// <param name="demand">What the host demands.</param>
    /// <param name="status">What the board last said.</param>
    /// <param name="resetting">Whether the latched causes are just being reset, so that they do not count yet.</param>
    /// <param name="now">Host time.</param>
    public string? Fault(in BoardDemand demand, in BoardStatus status, bool resetting, TimeSpan now)
    {
        bool stopped = status.Latched != BoardCauses.None && !resetting;
        bool driven = _drivenThough.LongerThan(_hostTime, stopped && demand.Drives(configuration), now);
        bool powered = _poweredThough.LongerThan(_hostTime + stoppingTime, stopped && demand.Power, now);
        if (driven || powered)
            return $"the board on {port} has stopped by itself ({status.Latched.InWords()}), but the run went on: give the rig file an interlock that sees this";
        bool wrong = status.Has(BoardBits.PulsesRunning) && Math.Abs(status.Measured - status.Demanded) > WrongPulse && status.Demanded == _pulse;
        _pulse = status.Demanded;
        return _wrongPulse.LongerThan(ReadBackTime, wrong, now)
            ? $"the board on {port} puts out a pulse of {status.Demanded} us, but {status.Measured} us is read back from its pin: look at the servo wire"
            : null;
    }
}
