using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Traces;

/// <summary>Gathers a run's samples and states into a <see cref="Trace"/>.</summary>
public sealed class TraceBuilder(IReadOnlyList<Channel> channels)
{
    private readonly List<double>[] _times = [.. channels.Select(_ => new List<double>())];
    private readonly List<double>[] _values = [.. channels.Select(_ => new List<double>())];
    private readonly List<Segment> _segments = [];
    private double _end;

    /// <summary>Takes one sample; Bad ones are left out. Samples of a channel that go back in time are left out too.</summary>
    public void Add(in Sample sample)
    {
        double at = sample.At.TotalSeconds;
        List<double> times = _times[sample.Channel];
        if (sample.Quality == Quality.Bad || (times.Count > 0 && at <= times[^1]))
            return;
        times.Add(at);
        _values[sample.Channel].Add(sample.Value);
        _end = Math.Max(_end, at);
    }

    /// <summary>Follows the states that a run entered.</summary>
    /// <param name="at">s.</param>
    /// <param name="state">Name of the state entered.</param>
    public void Enter(double at, string state)
    {
        Segment? last = _segments.Count > 0 ? _segments[^1] : null;
        bool open = last is not null && double.IsNaN(last.EndAt);
        if (state == "SpinUp" && !open)
            _segments.Add(new Segment(_segments.Count + 1, at, double.NaN, double.NaN, double.NaN));
        else if (open)
            _segments[^1] = Close(last!, at, state);
    }

    public Trace Build()
    {
        for (int i = 0; i < _segments.Count; i++)
        {
            if (double.IsNaN(_segments[i].EndAt))
                _segments[i] = _segments[i] with { EndAt = _end };
        }

        Dictionary<string, Series> series = [];
        foreach (Channel channel in channels)
        {
            ChannelDeclaration declared = channel.Declaration;
            series[channel.Name] = new Series(declared.Unit, declared.Resolution, [.. _times[channel.Index]], [.. _values[channel.Index]]);
        }

        return new Trace(series, SegmentFinder.Refine(series, _segments));
    }

    // A safe-stop lets the output go as well; the rotor then runs down to the end of the record.
    private static Segment Close(Segment segment, double at, string state) => state switch
    {
        "Hold" when double.IsNaN(segment.HoldAt) => segment with { HoldAt = at },
        "CoastDown" or "SafeStop" when double.IsNaN(segment.ReleaseAt) => segment with { ReleaseAt = at },
        "Idle" => segment with { EndAt = at },
        _ => segment,
    };
}
