using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.EndToEnd.Tests.Killing;

/// <summary>An event as the program told it on standard error.</summary>
/// <param name="At">Session time, s, to the millisecond.</param>
internal readonly record struct ToldEvent(string At, string Text)
{
    public TimeSpan Time => TimeSpan.FromSeconds(double.Parse(At, CultureInfo.InvariantCulture));
}

/// <summary>
/// What a run on the real clock had said when it was killed with SIGKILL, and what its logbook holds. A device of the rig says
/// every sample that it gives on a pipe, and the program tells every event on another.
/// </summary>
/// <param name="Said">The device's samples: time and count.</param>
/// <param name="Told">Events, in order.</param>
/// <param name="Kept">The device's samples that the logbook has.</param>
/// <param name="Events">Events that the logbook has.</param>
/// <param name="Damage">What <c>logbook verify</c> finds.</param>
internal sealed partial record KilledRun(
    IReadOnlyList<(TimeSpan At, double Count)> Said, IReadOnlyList<ToldEvent> Told, IReadOnlyList<Sample> Kept, IReadOnlyList<RigEvent> Events, IReadOnlyList<string> Damage)
{
    /// <summary>When the device heard of a scan for the first time; null where it never did.</summary>
    public TimeSpan? FirstScan { get; init; }

    /// <summary>
    /// Record time between the last sample that was said and the last that is kept; null where no scan was made yet: devices are read
    /// from the moment they are opened, the record begins with the first scan.
    /// </summary>
    public TimeSpan? Missing => Kept.Count > 0 ? Said[^1].At - Kept[^1].At : FirstScan is { } from ? Said[^1].At - from : null;

    /// <summary>Whether what is kept is what was said, sample by sample, from the first on.</summary>
    public bool IsPrefix => Kept.Count <= Said.Count + 1 && Kept.Zip(Said).All(p => p.First.At == p.Second.At && p.First.Value == p.Second.Count);

    /// <summary>Events that were told and are not kept, with how long before the last sample each had been told at most.</summary>
    public IReadOnlyList<(ToldEvent Event, TimeSpan Age)> Lost
    {
        get
        {
            HashSet<ToldEvent> kept = [.. Events.Select(e => new ToldEvent(e.At.TotalSeconds.ToString("0.000", CultureInfo.InvariantCulture), e.Text))];
            return [.. Told.Where(t => !kept.Contains(t)).Select(t => (t, Said[^1].At - t.Time))];
        }
    }

    public int TripsTold => Told.Count(t => t.Text.Contains(KilledRuns.Trip, StringComparison.Ordinal));

    /// <summary>Reads along until the device has said a moment, kills, and reads what is left in pipes and logbook; null where the run ended before.</summary>
    /// <param name="process">A run, its outputs redirected.</param>
    /// <param name="moment">Session time of the kill.</param>
    /// <param name="further">Turns of an idle loop after it, so that a kill may fall anywhere between two samples.</param>
    public static KilledRun? Of(Process process, TimeSpan moment, int further, string logbook)
    {
        Task<string> errors = process.StandardError.ReadToEndAsync();
        List<(TimeSpan, double)> said = [];
        TimeSpan? scanned = null;
        while (process.StandardOutput.ReadLine() is { } line)
        {
            if (!Hear(line, said, ref scanned) || said[^1].Item1 < moment || process.HasExited)
                continue;
            Thread.SpinWait(further);
            process.Kill();
            break;
        }

        while (process.StandardOutput.ReadLine() is { } line)
            Hear(line, said, ref scanned);
        process.WaitForExit();
        List<ToldEvent> told = [.. Lines().Matches(errors.Result).Select(m => new ToldEvent(m.Groups["at"].Value, m.Groups["text"].Value))];
        using LogbookFile book = LogbookFile.Open(logbook);
        RunSummary run = book.Find(LogbookFile.Last);
        if (run.Outcome != RunOutcome.BrokenOff)
            return null;
        int device = book.Header(run.Run).Devices.Select((d, i) => (d.Id, i)).First(d => d.Id == KilledRuns.Witness).i;
        return new KilledRun(said, told, [.. book.Samples(run.Run, device)], book.Events(run.Run), book.Verify().Damage) { FirstScan = scanned };
    }

    // The last line may be torn; then it was not said.
    private static bool Hear(string line, List<(TimeSpan, double)> said, ref TimeSpan? scanned)
    {
        string[] words = line.Split(' ');
        if (words.Length != 2 || !long.TryParse(words[0], CultureInfo.InvariantCulture, out long ticks))
            return false;
        if (words[1] == "scanned")
            scanned = TimeSpan.FromTicks(ticks);
        if (!double.TryParse(words[1], CultureInfo.InvariantCulture, out double count))
            return false;
        said.Add((TimeSpan.FromTicks(ticks), count));
        return true;
    }

    [GeneratedRegex(@"^ *(?<at>\d+\.\d{3}) s  \S+ +(?<text>.*?)\r?$", RegexOptions.Multiline | RegexOptions.CultureInvariant)]
    private static partial Regex Lines();
}
