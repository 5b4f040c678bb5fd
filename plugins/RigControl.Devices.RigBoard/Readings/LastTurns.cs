using RigControl.Devices.RigBoard.Protocol;

namespace RigControl.Devices.RigBoard.Readings;

/// <summary>
/// The last three whole turns of a rotor that nothing drives, timed by the board's clock, and what they say of how it can end. Friction that
/// stays as it is brings the quickest honest end: whatever grows with the speed is least in the last turn. So the slowing between
/// the last turns is what the rest is held to. A mark that was missed looks like slowing too: so the lesser of the two that three turns
/// show counts, from the turn before the last on.
/// </summary>
/// <param name="marks">Marks a turn, 1 to 16.</param>
internal sealed class LastTurns(int marks)
{
    /// <summary>How many times harder than over its last turns a rotor may end, and how many times gentler: for bearings, cogging and uneven marks. No source.</summary>
    public const double Margin = 2;

    // Three turns of sixteen marks and what lost lines leave uneven.
    private const int Room = 64;
    private const int Turns = 3;
    private const uint ClockMask = 0x7FFF_FFFF;
    private const double MicrosecondsInSecond = 1e6;
    private const double SecondsInMinute = 60;

    private readonly (ushort Pulses, uint Time)[] _seen = new (ushort, uint)[Room];
    private int _count;

    /// <summary>What came before counts no more: the rotor was driven, or came to rest in between.</summary>
    public void Forget() => _count = 0;

    /// <summary>Takes the latest mark of a line.</summary>
    public void See(in BoardStatus status) => _seen[_count++ % Room] = (status.Pulses, (status.Time - status.Age) & ClockMask);

    /// <summary>Longest time in which the rotor comes to rest after its last mark without another one; null where it has to give another one, or nothing tells.</summary>
    public TimeSpan? ToRest()
    {
        Span<(double Speed, double Time)> turns = stackalloc (double, double)[Turns];
        if (!TryTurns(turns))
            return null;
        double slowing = Math.Min(Slowing(turns[1], turns[0]), Slowing(turns[2], turns[1]));
        if (!(slowing > 0))
            return null;
        // A turn's mean is its speed in the middle of its time. Reckoned from the turn before the last, whose own time a missed mark may have stretched.
        double last = Math.Max(0, turns[1].Speed - slowing * (turns[1].Time / 2 + turns[0].Time));
        bool another = last * last > 2 * Margin * slowing * SecondsInMinute / marks;
        return another ? null : TimeSpan.FromSeconds(Margin * last / slowing);
    }

    // rpm/s, between the middles of two turns.
    private static double Slowing((double Speed, double Time) before, (double Speed, double Time) after) =>
        (before.Speed - after.Speed) / ((before.Time + after.Time) / 2);

    // The latest first, rpm and s.
    private bool TryTurns(Span<(double Speed, double Time)> turns)
    {
        int end = _count - 1;
        for (int i = 0; i < turns.Length; i++)
        {
            if (end < 0 || !TryBegin(end, out int begin))
                return false;
            ((ushort pulses, uint time), (ushort before, uint since)) = (_seen[end % Room], _seen[begin % Room]);
            double seconds = ((time - since) & ClockMask) / MicrosecondsInSecond;
            turns[i] = (SecondsInMinute * (ushort)(pulses - before) / marks / seconds, seconds);
            end = begin;
        }

        return true;
    }

    // Where a line was lost the turn's own first mark is missing; then the one before it has to do.
    private bool TryBegin(int end, out int begin)
    {
        for (begin = end - 1; begin >= 0 && begin > _count - 1 - Room; begin--)
        {
            if ((ushort)(_seen[end % Room].Pulses - _seen[begin % Room].Pulses) >= marks)
                return true;
        }

        return false;
    }
}
