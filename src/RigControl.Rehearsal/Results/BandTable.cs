using RigControl.Model.Rig;

namespace RigControl.Rehearsal.Results;

/// <summary>
/// Gathers, for each channel and each stretch of time within each step, the lowest and highest value of all samples of a
/// rehearsal. Not safe for several threads: each has its own, and they are joined at the end.
/// </summary>
internal sealed class BandTable(int channels, int steps)
{
    /// <summary>Length of a stretch. Shorter ones would tell apart what no two runs do alike.</summary>
    public static readonly TimeSpan Stretch = TimeSpan.FromMilliseconds(50);

    /// <summary>Most stretches of a step that are kept apart; a longer step goes on in the last one.</summary>
    public const int MostStretches = 2400;

    private readonly List<(double Low, double High)>[] _bands = [.. Enumerable.Range(0, channels * steps).Select(_ => new List<(double, double)>())];

    public void Add(int channel, int step, TimeSpan timeInStep, double value)
    {
        List<(double Low, double High)> band = _bands[channel * steps + step];
        int place = (int)Math.Min(timeInStep.Ticks / Stretch.Ticks, MostStretches - 1);
        while (band.Count <= place)
            band.Add((double.PositiveInfinity, double.NegativeInfinity));
        (double low, double high) = band[place];
        if (value < low || value > high)
            band[place] = (Math.Min(low, value), Math.Max(high, value));
    }

    public void Join(BandTable other)
    {
        for (int i = 0; i < _bands.Length; i++)
        {
            List<(double Low, double High)> own = _bands[i], more = other._bands[i];
            for (int k = 0; k < more.Count; k++)
            {
                if (k == own.Count)
                    own.Add(more[k]);
                else
                    own[k] = (Math.Min(own[k].Low, more[k].Low), Math.Max(own[k].High, more[k].High));
            }
        }
    }

    /// <summary>The bands of one channel, step by step; a stretch that no sample reached has the one before's.</summary>
    public RehearsedBand Of(int channel, string name) => new(name, Stretch, [.. Enumerable.Range(0, steps).Select(s => Filled(_bands[channel * steps + s]))]);

    private static BandStep Filled(List<(double Low, double High)> band)
    {
        double[] low = new double[band.Count], high = new double[band.Count];
        for (int i = 0; i < band.Count; i++)
            (low[i], high[i]) = double.IsInfinity(band[i].Low) && i > 0 ? (low[i - 1], high[i - 1]) : band[i];
        return new BandStep(low, high);
    }
}
