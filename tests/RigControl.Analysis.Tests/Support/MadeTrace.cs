using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Tests.Support;

/// <summary>A trace made from functions of time, so that the truth behind it is known.</summary>
internal sealed class MadeTrace
{
    private readonly Dictionary<string, Series> _channels = [];
    private readonly List<Segment> _segments = [];

    /// <summary>Samples a function from <paramref name="from"/> to <paramref name="to"/> every <paramref name="step"/> s, rounded to a resolution.</summary>
    public MadeTrace Channel(string name, string unit, Func<double, double> value, double from = 0, double to = 20, double step = 0.01, double resolution = 0)
    {
        int count = (int)Math.Round((to - from) / step) + 1;
        double[] times = [.. Enumerable.Range(0, count).Select(i => from + i * step)];
        double[] values = [.. times.Select(t => resolution > 0 ? Math.Round(value(t) / resolution) * resolution : value(t))];
        return Samples(name, unit, times, values, resolution);
    }

    public MadeTrace Samples(string name, string unit, double[] times, double[] values, double resolution = 0)
    {
        _channels[name] = new Series(unit, resolution, times, values);
        return this;
    }

    /// <summary>Adds a repeat, times in s; not a number where it never came to that.</summary>
    public MadeTrace Repeat(double rise, double hold, double release, double end)
    {
        _segments.Add(new Segment(_segments.Count + 1, rise, hold, release, end));
        return this;
    }

    public Trace Build() => new(_channels, _segments);

    /// <summary>All figures of a name.</summary>
    public IReadOnlyList<Figure> Figures(string name, Article? article = null) =>
        FigureCatalog.Compute([name], new FigureInput(Build(), article ?? Articles.Disc, FigureContext.UsualRestSpeed));

    /// <summary>The only figure of a name.</summary>
    public Figure Figure(string name, Article? article = null) => Assert.Single(Figures(name, article));
}
