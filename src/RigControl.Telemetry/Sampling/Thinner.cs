using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Telemetry.Sampling;

/// <summary>Folds the images of many scans into about ten blocks a second. Runs in the scan and allocates nothing.</summary>
internal sealed class Thinner
{
    /// <summary>Length of a block.</summary>
    public static readonly TimeSpan BlockTime = TimeSpan.FromMilliseconds(100);

    // A hundred values a second and channel are more than a screen shows.
    private static readonly TimeSpan ShortestSlot = TimeSpan.FromMilliseconds(10);

    private readonly BlockRing _ring;
    private readonly int _channels;
    private readonly int _slots;
    private readonly TimeSpan _slotTime;
    private Block _block;
    private long _sequence;
    private bool _begun;

    /// <param name="waiting">Most blocks that may wait for the link.</param>
    public Thinner(int channels, TimeSpan scanPeriod, int waiting)
    {
        _channels = channels;
        // Two scans a slot at least, so that a scan that is a little late leaves no hole.
        TimeSpan slot = scanPeriod * 2 > ShortestSlot ? scanPeriod * 2 : ShortestSlot;
        _slots = Math.Max(1, (int)(BlockTime / slot));
        _slotTime = slot > BlockTime ? slot : BlockTime / _slots;
        _ring = new BlockRing(waiting, () => new Block(channels, _slots));
        _block = _ring.First();
    }

    public BlockRing Ring => _ring;

    public void Take(in ScanRecord record, in InputImage image)
    {
        int slot = Place(record.Now);
        for (int channel = 0; channel < _channels; channel++)
            _block.Take(channel, slot, image[channel]);
        for (int interlock = 0; interlock < record.InterlockCount; interlock++)
            _block.Take(interlock, record.Demands[interlock]);
    }

    private int Place(TimeSpan now)
    {
        if (_begun && now >= _block.Start && now < _block.Start + _slotTime * _slots)
            return Math.Min((int)((now - _block.Start) / _slotTime), _slots - 1);
        if (_begun)
            _block = _ring.Post(_block);
        _begun = true;
        // Blocks stand on whole multiples of their length, so that readers can lay them side by side.
        TimeSpan length = _slotTime * _slots;
        TimeSpan start = new(now.Ticks / length.Ticks * length.Ticks);
        _block.Begin(++_sequence, start, _slotTime);
        return Math.Min((int)((now - start) / _slotTime), _slots - 1);
    }
}
