using RigControl.Devices.RigBoard.Protocol;
using RigControl.Model.Signals;

namespace RigControl.Devices.RigBoard.Readings;

/// <summary>
/// Speed from the tachometer. Only marks make a reading: between two of them the speed of the last turn stands, and it is no more than
/// an upper bound. The time since the last mark lowers nothing, since a lead that came off looks the same. When the next mark is
/// late, either the last turns show that the rotor could come to rest without it: then it is 0, once it must have. Or it had to give
/// another one: then it is Bad, for the article's longest coast-down since the last pulse and the last power.
/// </summary>
/// <param name="pulsesPerRevolution">1 to 16.</param>
/// <param name="longestCoastDown">Longest credible time from stop output to standstill, as the builder declares it.</param>
internal sealed class RotorSpeed(int pulsesPerRevolution, TimeSpan longestCoastDown)
{
    /// <summary>Age at which the board stops counting, us: nothing has come for so long, or never.</summary>
    public const uint LongestAge = 9_999_999;

    /// <summary>What no hand turns a rotor at, rpm: without power since it last stood, a slower one that stops was stopped by a hand.</summary>
    private const double HandSpeed = 600;

    /// <summary>A rotor that runs down takes at most this many times longer for the next mark than for the last: 2.4 by constant friction, and uneven marks.</summary>
    private const double MostSlowing = 4;

    /// <summary>A driven one that turns about takes longer: 4.8 where it goes back as it came.</summary>
    private const double MostTurningAbout = 6;

    /// <summary>A time between two marks that is so many times longer than the last may hold a missed mark, which makes it twice as long; else it is the last of a rotor that comes to rest.</summary>
    private const double MissedMark = 1.8;

    /// <summary>So many marks in a row are believed that a rotor without drive fell by as much.</summary>
    private const int MarksOfAFall = 3;

    private const int MarksOfATurn = 2;
    private const double MicrosecondsInMinute = 60e6;

    private readonly LastTurns _turns = new(pulsesPerRevolution);
    private bool _begun;
    private ushort _pulses;
    private double _speed;
    private int _marksOfFall;
    private TimeSpan _markAt;
    private bool _judged;
    private bool _mayTurn;
    private bool _mayHaveTurned;
    private bool _waited;
    private int _marksInDoubt;
    private TimeSpan _doubtEnds;
    private TimeSpan _powerSeen = TimeSpan.MinValue;

    /// <summary>Why the speed is Bad.</summary>
    public SpeedDoubt Doubt { get; private set; }

    /// <summary>Speed, rpm, at the time of a status, and how far it can be trusted.</summary>
    public (double Value, Quality Quality) At(in BoardStatus status, TimeSpan at)
    {
        bool powered = status.Has(BoardBits.ContactorClosed) || status.Has(BoardBits.PowerOn);
        bool driven = powered && status.Mode == BoardMode.Spin;
        bool lost = (status.Latched & BoardCauses.Tachometer) != 0;
        if (powered)
            (_powerSeen, _mayTurn) = (at, true);
        if (driven)
            _turns.Forget();
        if (!_begun || status.Pulses != _pulses)
            TakeMarks(status, at, driven, lost);
        if (!_judged && IsOverdue(status, driven))
            Judge(at);
        if (lost && Doubt == SpeedDoubt.None && !_waited)
            Suspect(SpeedDoubt.Lost, status.Age < LongestAge ? _markAt : at);
        FollowDoubt(at, powered);
        return (_speed, Doubt == SpeedDoubt.None ? Quality.Good : Quality.Bad);
    }

    /// <summary>Speed, rpm, of a time between two pulses, us; 0 for none.</summary>
    public double Of(uint period) => period == 0 ? 0 : MicrosecondsInMinute / ((double)period * pulsesPerRevolution);

    private static bool IsOverdue(in BoardStatus status, bool driven) =>
        status.Age >= Math.Min(LongestAge, status.Period * (driven ? MostTurningAbout : MostSlowing));

    private void TakeMarks(in BoardStatus status, TimeSpan at, bool driven, bool lost)
    {
        int marks = (ushort)(status.Pulses - _pulses);
        if (_judged)
            _turns.Forget();
        (_begun, _pulses) = (true, status.Pulses);
        _markAt = at - TimeSpan.FromMicroseconds(status.Age);
        if (!driven && status.Age < LongestAge)
            _turns.See(status);
        _marksInDoubt += marks;
        // A time that reaches back over the doubt is no turn.
        if (Doubt != SpeedDoubt.None && (lost || _marksInDoubt < MarksOfATurn))
        {
            _doubtEnds = _markAt + longestCoastDown;
            return;
        }

        (Doubt, _mayHaveTurned, _waited) = (SpeedDoubt.None, _mayTurn, _waited && lost);
        TakeSpeed(status.Age < LongestAge ? Of(status.Period) : 0, driven);
        // One mark alone tells of no speed.
        _judged = _speed == 0;
    }

    // Where marks are missed the lead is likely to come off next: a fall that looks like it is not taken for slowing.
    private void TakeSpeed(double speed, bool driven)
    {
        bool fell = !driven && speed > 0 && speed * MissedMark < _speed;
        _marksOfFall = fell ? _marksOfFall + 1 : 0;
        if (!fell || _marksOfFall == MarksOfAFall)
            (_speed, _marksOfFall) = (speed, 0);
    }

    private void Judge(TimeSpan at)
    {
        bool byHand = !_mayHaveTurned && _speed < HandSpeed;
        TimeSpan? toRest = byHand ? TimeSpan.Zero : _turns.ToRest();
        if (toRest is null)
            Suspect(SpeedDoubt.BrokeOff, _markAt);
        else if (at - _markAt >= toRest)
            Rest();
    }

    private void Rest() => (_judged, _speed, _mayTurn) = (true, 0, false);

    private void Suspect(SpeedDoubt doubt, TimeSpan since)
    {
        (Doubt, _judged, _marksInDoubt) = (doubt, true, 0);
        _doubtEnds = (since > _powerSeen ? since : _powerSeen) + longestCoastDown;
    }

    // Waited out once, the same silence is not doubted again: only new marks make it another one.
    private void FollowDoubt(TimeSpan at, bool powered)
    {
        if (Doubt == SpeedDoubt.None)
            return;
        if (powered)
            _doubtEnds = at + longestCoastDown;
        if (at < _doubtEnds)
            return;
        (Doubt, _waited) = (SpeedDoubt.None, true);
        Rest();
    }
}
