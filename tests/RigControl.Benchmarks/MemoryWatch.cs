using System.Globalization;

namespace RigControl.Benchmarks;

/// <summary>Looks at the process's memory and collections from a thread of its own.</summary>
internal sealed class MemoryWatch : IDisposable
{
    private readonly ManualResetEventSlim _ending = new();
    private readonly List<double> _resident = [];
    private readonly Thread _thread;
    private readonly int _before = GC.CollectionCount(0);
    private long _seen;

    public MemoryWatch()
    {
        _seen = GC.GetGCMemoryInfo(GCKind.Any).Index;
        _thread = new Thread(Look) { Name = "memory watch", IsBackground = true };
        _thread.Start();
    }

    /// <summary>In ms. Of two collections between two looks, ten milliseconds apart, only the later is seen.</summary>
    public double LongestPause { get; private set; }

    public int Collections { get; private set; }

    public string MiddleThird => Text(Third(1));

    public string LastThird => Text(Third(2));

    /// <summary>Memory of the last third over that of the middle one.</summary>
    public double Growth => Third(2) / Third(1);

    public void Stop()
    {
        _ending.Set();
        _thread.Join();
        Collections = GC.CollectionCount(0) - _before;
    }

    public void Dispose() => _ending.Dispose();

    private static string Text(double bytes) => string.Create(CultureInfo.InvariantCulture, $"{bytes / (1 << 20):0.0} MiB resident on average");

    private double Third(int which) => _resident.Skip(which * _resident.Count / 3).Take(Math.Max(1, _resident.Count / 3)).DefaultIfEmpty(double.NaN).Average();

    private void Look()
    {
        for (int i = 0; !_ending.Wait(10); i++)
        {
            GCMemoryInfo latest = GC.GetGCMemoryInfo(GCKind.Any);
            if (latest.Index != _seen)
            {
                _seen = latest.Index;
                foreach (TimeSpan pause in latest.PauseDurations)
                    LongestPause = Math.Max(LongestPause, pause.TotalMilliseconds);
            }

            if (i % 100 == 0)
                _resident.Add(Environment.WorkingSet);
        }
    }
}
