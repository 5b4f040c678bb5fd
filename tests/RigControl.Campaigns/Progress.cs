using System.Diagnostics;
using System.Globalization;

namespace RigControl.Campaigns;

/// <summary>Says on standard error every few seconds how far a campaign has come.</summary>
internal sealed class Progress(long seeds, Stopwatch watch)
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(10);

    private readonly Lock _lock = new();
    private TimeSpan _next = Every;

    public void Tell(Summary soFar)
    {
        lock (_lock)
        {
            if (watch.Elapsed < _next)
                return;
            _next = watch.Elapsed + Every;
        }

        double rate = soFar.Runs / watch.Elapsed.TotalSeconds;
        TimeSpan left = TimeSpan.FromSeconds((seeds - soFar.Runs) / rate);
        Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{soFar.Runs} of {seeds} seeds, {rate:0.0} a second, {(long)left.TotalMinutes} min to go, {soFar.Violations} violations"));
    }
}
