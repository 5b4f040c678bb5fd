using RigControl.Devices.RigBoard.Protocol;
using RigControl.Model.Signals;

namespace RigControl.Devices.RigBoard.Readings;

/// <summary>
/// Speed from the tachometer. Between pulses it falls with the time since the last one, for a rotor whose next pulse has
/// not come turns no faster than that; after 10 s without any it is 0. Where standing still would be believed wrongly, it is
/// Bad instead, for the article's longest coast-down since the last pulse and the last power: when the board found the
/// tachometer lost, and when the pulses broke off at a speed from which no rotor stops between two pulses.
/// </summary>
/// <param name="pulsesPerRevolution">1 to 16.</param>
/// <param name="longestCoastDown">Longest credible time from stop output to standstill, as the builder declares it.</param>
internal sealed class RotorSpeed(int pulsesPerRevolution, TimeSpan longestCoastDown)
{
    /// <summary>Age at which the board stops counting, us: nothing has come for so long, or never.</summary>
    public const uint LongestAge = 9_999_999;

    /// <summary>The highest speed that a rig file may count as standing, rpm: a rotor that runs down passes below it while it still gives pulses.</summary>
    private const double SlowSpeed = 600;

    /// <summary>A rotor above <see cref="SlowSpeed"/> takes at most this many times longer for the next pulse than for the last.</summary>
    private const double MostSlowing = 4;

    private const double MicrosecondsInMinute = 60e6;
    private bool _doubted;
    private TimeSpan? _unprovenUntil;
    private TimeSpan _powerSeen = TimeSpan.MinValue;

    /// <summary>Speed, rpm, at the time of a status, and how far it can be trusted.</summary>
    public (double Value, Quality Quality) At(in BoardStatus status, TimeSpan at)
    {
        if (status.Has(BoardBits.ContactorClosed) || status.Has(BoardBits.PowerOn))
            _powerSeen = at;
        double speed = Bound(status);
        return (speed, IsProven(status, speed, at) ? Quality.Good : Quality.Bad);
    }

    /// <summary>Speed, rpm, of a time between two pulses, us; 0 for none.</summary>
    public double Of(uint period) => period == 0 ? 0 : MicrosecondsInMinute / ((double)period * pulsesPerRevolution);

    private double Bound(in BoardStatus status) => status.Period == 0 || status.Age >= LongestAge
        ? 0
        : Of(Math.Max(status.Period, status.Age));

    private bool IsProven(in BoardStatus status, double speed, TimeSpan at)
    {
        bool lost = (status.Latched & BoardCauses.Tachometer) != 0;
        if (!lost && status.Age < status.Period * MostSlowing)
            (_doubted, _unprovenUntil) = (false, null);
        else if (!_doubted && (lost || BrokeOff(status, speed)))
            (_doubted, _unprovenUntil) = (true, EndOfDoubt(status, at));
        // Waited out once, the same silence is not doubted again: only new pulses make it another one.
        if (_unprovenUntil is null || at >= _unprovenUntil)
            _unprovenUntil = null;
        else if (_powerSeen == at)
            _unprovenUntil = at + longestCoastDown;
        return _unprovenUntil is null;
    }

    private bool BrokeOff(in BoardStatus status, double speed)
    {
        double last = Of(status.Period);
        return last >= SlowSpeed && speed < last / MostSlowing;
    }

    // Where the board no longer knows when the last pulse was, it might have been just now.
    private TimeSpan EndOfDoubt(in BoardStatus status, TimeSpan at)
    {
        TimeSpan pulse = status.Age >= LongestAge ? at : at - TimeSpan.FromMicroseconds(status.Age);
        return (pulse > _powerSeen ? pulse : _powerSeen) + longestCoastDown;
    }
}
