using RigControl.Model.Records;

namespace RigControl.Surveys;

/// <summary>How one figure did over many runs whose truth is known.</summary>
public sealed class Tally(string name)
{
    private readonly Lock _lock = new();
    private readonly List<double> _off = [];
    private readonly List<double> _width = [];

    public string Name => name;

    /// <summary>Runs that gave a number.</summary>
    public int Values { get; private set; }

    /// <summary>Runs that gave a reason instead.</summary>
    public int Reasons { get; private set; }

    /// <summary>Runs whose interval holds the truth.</summary>
    public int Held { get; private set; }

    /// <summary>Share of the intervals that hold the truth, %.</summary>
    public double Coverage => 100.0 * Held / Math.Max(1, Values);

    /// <summary>Mean of value less truth, as a share of the whole interval's width.</summary>
    public double Bias => _off.Count == 0 ? 0 : _off.Average();

    /// <summary>Median width of the interval beside the truth, %.</summary>
    public double Width => _width.Count == 0 ? 0 : 100 * _width.Order().ElementAt(_width.Count / 2);

    /// <summary>Takes one figure, or null where the run did not give it at all.</summary>
    public void Add(Figure? figure, double truth)
    {
        lock (_lock)
        {
            if (figure is not { Value: { } value, Interval95: { } interval })
            {
                Reasons++;
                return;
            }

            Values++;
            Held += interval.Low <= truth && truth <= interval.High ? 1 : 0;
            double width = interval.High - interval.Low;
            // One wild run must not hide how the rest lie.
            _off.Add(width > 0 ? Math.Clamp((value - truth) / width, -5, 5) : 0);
            _width.Add(width / Math.Abs(truth));
        }
    }
}
