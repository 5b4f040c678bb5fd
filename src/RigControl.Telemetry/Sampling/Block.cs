using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Telemetry.Sampling;

/// <summary>
/// A stretch of all channels for display, made once and used again: per channel and slot the lowest and the highest reading.
/// A mean would hide the spike that somebody looks for. Filled by one thread, handed over whole.
/// </summary>
internal sealed class Block(int channels, int slots)
{
    private readonly double[] _lowest = new double[channels * slots];
    private readonly double[] _highest = new double[channels * slots];
    private readonly Quality[] _quality = new Quality[channels];

    /// <summary>Number of the block in the run, from 1, without gaps where none was dropped.</summary>
    public long Sequence { get; private set; }

    /// <summary>Where the first slot begins, since the run's clock started.</summary>
    public TimeSpan Start { get; private set; }

    public TimeSpan SlotTime { get; private set; }

    public int Slots => slots;

    /// <summary>Interlock with the least room in the block, or -1.</summary>
    public int Tightest { get; private set; }

    public Demand TightestDemand { get; private set; }

    public ReadOnlySpan<double> Lowest(int channel) => _lowest.AsSpan(channel * slots, slots);

    public ReadOnlySpan<double> Highest(int channel) => _highest.AsSpan(channel * slots, slots);

    /// <summary>The worst quality in the block. A slot without a reading is never called Good.</summary>
    public Quality QualityOf(int channel) =>
        _quality[channel] == Quality.Good && Lowest(channel).Contains(double.NaN) ? Quality.Uncertain : _quality[channel];

    public void Begin(long sequence, TimeSpan start, TimeSpan slotTime)
    {
        (Sequence, Start, SlotTime, Tightest, TightestDemand) = (sequence, start, slotTime, -1, default);
        Array.Fill(_lowest, double.NaN);
        Array.Fill(_highest, double.NaN);
        Array.Fill(_quality, Quality.Good);
    }

    public void Take(int channel, int slot, in ImageEntry entry)
    {
        if (entry.Quality < _quality[channel])
            _quality[channel] = entry.Quality;
        if (!entry.IsUsable)
            return;
        int place = channel * slots + slot;
        // Written so that the first reading replaces NaN and a reading that is none changes nothing.
        if (!(entry.Minimum >= _lowest[place]) && double.IsFinite(entry.Minimum))
            _lowest[place] = entry.Minimum;
        if (!(entry.Maximum <= _highest[place]) && double.IsFinite(entry.Maximum))
            _highest[place] = entry.Maximum;
    }

    /// <summary>Keeps the interlock that objects most, or else has the least room.</summary>
    public void Take(int interlock, in Demand demand)
    {
        Demand kept = TightestDemand;
        if (Tightest < 0 || demand.Action < kept.Action || (demand.Action == kept.Action && demand.Margin < kept.Margin))
            (Tightest, TightestDemand) = (interlock, demand);
    }
}
