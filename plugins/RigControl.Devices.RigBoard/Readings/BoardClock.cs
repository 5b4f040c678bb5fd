namespace RigControl.Devices.RigBoard.Readings;

/// <summary>
/// Maps the board's clock to host time. A line arrives late by varying amounts but never early, so the least lateness of each
/// quarter second is what counts, and a straight line through those of the last four seconds follows the drift of the board's
/// resonator. What it gives never runs backwards and is never later than the arrival.
/// </summary>
internal sealed class BoardClock
{
    private const long Wrap = 1L << 31;
    private const long WindowLength = 250_000;
    private const int Windows = 16;
    // A line through fewer windows than these would follow the jitter instead of the clock.
    private const int FewestForFit = 4;

    /// <summary>Furthest that board and host may run apart: four times what a ceramic resonator is allowed (common practice, no source).</summary>
    private const double MostDrift = 0.02;

    private readonly (double Board, double Offset)[] _leasts = new (double, double)[Windows];
    private int _count;
    private long _board;
    private bool _started;
    private long _windowEnd;
    private (double Board, double Offset) _least;
    private double _level;
    private double _slope;
    private double _centre;
    private TimeSpan _latest;

    private (double Board, double Offset) Latest => _leasts[(_count - 1) % Windows];

    /// <summary>Host time of a line's snapshot.</summary>
    /// <param name="time">Board clock in the line, us, wrapping at 2^31.</param>
    /// <param name="arrival">Host time at which the line can at the latest have been sent; never less than in the call before.</param>
    public TimeSpan HostTime(uint time, TimeSpan arrival)
    {
        Unwrap(time);
        double offset = arrival.Ticks / 10.0 - _board;
        Follow(offset);
        TimeSpan mapped = TimeSpan.FromTicks((long)((_board + Offset()) * 10));
        mapped = mapped > arrival ? arrival : mapped;
        _latest = mapped > _latest ? mapped : _latest;
        return _latest;
    }

    private void Unwrap(uint time)
    {
        _board += _started ? (time - _board % Wrap + Wrap) % Wrap : time;
        if (!_started)
            (_started, _windowEnd, _least) = (true, _board + WindowLength, (_board, double.MaxValue));
    }

    private void Follow(double offset)
    {
        if (offset < _least.Offset)
            _least = (_board, offset);
        if (_board < _windowEnd)
            return;
        Keep(_least);
        Fit();
        (_windowEnd, _least) = (_board + WindowLength, (_board, offset));
    }

    // While the host was held up every line came late. No clock drifts that fast, so such a window is left out; the longer
    // none was kept, the more is believed, and a lateness that lasts is taken for true in the end.
    private void Keep((double Board, double Offset) least)
    {
        if (_count > 0 && least.Offset - Latest.Offset > MostDrift * (least.Board - Latest.Board))
            return;
        _leasts[_count++ % Windows] = least;
    }

    private void Fit()
    {
        ReadOnlySpan<(double Board, double Offset)> kept = _leasts.AsSpan(0, Math.Min(_count, Windows));
        (double centre, double level) = (0, 0);
        foreach ((double board, double offset) in kept)
            (centre, level) = (centre + board / kept.Length, level + offset / kept.Length);
        (double product, double square) = (0, 0);
        foreach ((double board, double offset) in kept)
        {
            product += (board - centre) * (offset - level);
            square += (board - centre) * (board - centre);
        }

        double slope = kept.Length >= FewestForFit ? product / square : 0;
        (_centre, _level, _slope) = (centre, level, Math.Clamp(slope, -MostDrift, MostDrift));
    }

    // Before a line can be laid, the least lateness of the latest windows has to do.
    private double Offset()
    {
        if (_count >= FewestForFit)
            return _level + _slope * (_board - _centre);
        return _count > 0 ? Math.Min(Latest.Offset, _least.Offset) : _least.Offset;
    }
}
