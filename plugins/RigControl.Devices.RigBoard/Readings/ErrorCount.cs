namespace RigControl.Devices.RigBoard.Readings;

/// <summary>Adds up the board's four error counters, each of which wraps at 256.</summary>
internal struct ErrorCount
{
    private uint _latest;
    private bool _started;
    private long _total;

    /// <summary>Errors since the first call: bad and refused host lines, receive overruns, lines of its own that the board dropped.</summary>
    public long Add(uint counters)
    {
        for (int shift = 0; _started && shift < 32; shift += 8)
            _total += (byte)((counters >> shift) - (_latest >> shift));
        (_latest, _started) = (counters, true);
        return _total;
    }
}
