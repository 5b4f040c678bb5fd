namespace RigControl.Kernel.Tests.Support;

/// <summary>The fold once more, slow and obvious: it keeps every sample and at each scan looks through all of them again.</summary>
internal sealed class ObviousFold(ChannelDeclaration declaration)
{
    /// <summary>A sample and its interval; or, without a sample, the moment at which a stamp from the future was given up.</summary>
    private sealed record Entry(Sample? Sample, TimeSpan At, BadCause Cause, int Interval);

    private readonly List<Entry> _all = [];
    private int _interval;

    public void Add(Sample sample) => _all.Add(new Entry(sample, sample.At, CauseOf(sample), _interval));

    public ImageEntry Close(TimeSpan now)
    {
        List<Entry> interval = [.. _all.Where(e => e.Sample is not null && e.Interval == _interval)];
        List<Sample> sound = [.. interval.Where(e => e.Cause == BadCause.None).Select(e => e.Sample!.Value)];
        (double last, Entry? latest, int identical) = LookThrough();
        TimeSpan at = latest?.At ?? TimeSpan.Zero;
        ImageEntry entry = new() { Count = interval.Count, Last = last, Age = now - at };
        (entry.Minimum, entry.MinimumAt) = sound.Select(s => (s.Value, s.At)).DefaultIfEmpty((last, at)).MinBy(s => s.Item1);
        (entry.Maximum, entry.MaximumAt) = sound.Select(s => (s.Value, s.At)).DefaultIfEmpty((last, at)).MaxBy(s => s.Item1);
        entry.Cause = latest is null ? BadCause.Never
            : entry.Age < TimeSpan.Zero ? BadCause.FromTheFuture
            : entry.Age > declaration.MaximumAge ? BadCause.TooOld
            : declaration.FrozenAfter > 0 && identical >= declaration.FrozenAfter ? BadCause.Frozen
            : interval.Count == 0 ? latest.Cause
            : interval.Select(e => e.Cause).FirstOrDefault(c => c != BadCause.None, BadCause.None);
        entry.Quality = entry.Cause != BadCause.None ? Quality.Bad
            : interval.Count == 0 ? latest!.Sample!.Value.Quality
            : interval.Min(e => e.Sample!.Value.Quality);
        if (entry.Cause == BadCause.FromTheFuture)
            _all.Add(new Entry(null, now, BadCause.FromTheFuture, _interval));
        _interval++;
        return entry;
    }

    private (double Last, Entry? Latest, int Identical) LookThrough()
    {
        (double last, Entry? latest, int identical) = (0, null, 0);
        foreach (Entry entry in _all)
        {
            if (entry.Sample is { } sample)
                identical = latest is not null && sample.Value.Equals(last) ? identical + 1 : 1;
            if (entry.Sample is null || latest is null || entry.At >= latest.At)
                (latest, last) = (entry, entry.Sample?.Value ?? last);
        }

        return (last, latest, identical);
    }

    private BadCause CauseOf(Sample sample) =>
        sample.Quality == Quality.Bad ? BadCause.Reported
        : double.IsNaN(sample.Value) || double.IsInfinity(sample.Value) ? BadCause.NotFinite
        : sample.Value < declaration.Minimum || sample.Value > declaration.Maximum ? BadCause.OutOfRange
        : BadCause.None;
}
