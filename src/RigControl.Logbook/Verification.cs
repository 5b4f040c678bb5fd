using RigControl.Logbook.Storage;
using RigControl.Model.Records;

namespace RigControl.Logbook;

/// <summary>Holds a logbook against itself, run by run. One damaged run does not end the look at the others.</summary>
internal sealed class Verification(LogbookFile logbook, Database database)
{
    // The database says no more of a file that is damaged all over.
    private const int MostFindings = 100;

    private readonly List<string> _damage = [];
    private readonly List<string> _notes = [];
    private long _scans;
    private long _samples;

    public Soundness Run(Action<string>? seen)
    {
        DatabaseChecks();
        IReadOnlyList<RunSummary> runs = [];
        Guarded("the list of runs", () => runs = logbook.Runs());
        foreach (RunSummary run in runs)
        {
            seen?.Invoke(run.Run);
            Guarded($"run {run.Run}", () => Check(run));
        }

        return new Soundness(runs.Count, _scans, _samples, [.. _damage.Take(MostFindings)], _notes);
    }

    private void DatabaseChecks()
    {
        Guarded("the file", () =>
        {
            using Rows findings = database.Query($"pragma integrity_check({MostFindings})");
            while (findings.Next())
            {
                if (findings.Text(0) is not "ok" and var finding)
                    _damage.Add($"the file: {finding}");
            }
        });
        Guarded("the file", () =>
        {
            using Rows orphans = database.Query("pragma foreign_key_check");
            while (orphans.Next())
                _damage.Add($"the file: a row of the table {orphans.Text(0)} belongs to no run");
        });
    }

    private void Check(RunSummary run)
    {
        RunHeader header = logbook.Header(run.Run);
        _ = (logbook.End(run.Run), logbook.Events(run.Run), logbook.Figures(run.Run), logbook.Remarks(run.Run), logbook.Tags(run.Run));
        bool whole = logbook.PrunedAt(run.Run) is null;
        long[] counted = [.. header.Devices.Select((_, device) => CountSamples(run.Run, device, whole))];
        CheckScans(run.Run, counted, whole);
        foreach (Attachment file in logbook.Attachments(run.Run))
        {
            if (FileDigest.Change(file) is { } change)
                (change.Damage ? _damage : _notes).Add($"run {run.Run}: {file.Path} {change.What}");
        }

        if (run.Outcome is RunOutcome.BrokenOff)
            _notes.Add($"run {run.Run} has no end: whoever recorded it was killed or lost power");
        if (!whole)
            _notes.Add($"run {run.Run} was pruned: beside the seconds around a trip its figures are all there is");
    }

    // Of a run that was pruned, what is left is read, and gaps are as they should be.
    private long CountSamples(string run, int device, bool whole)
    {
        long count = 0, expected = 0;
        using (Rows blocks = database.Query("select first, count from sample_block join run on run.id = sample_block.run where run.name = $1 and device = $2 order by first", run, device))
        {
            while (blocks.Next())
            {
                if (whole && blocks.Number(0) != expected)
                    _damage.Add($"run {run}: samples of device {device} are missing or doubled after {expected}");
                (expected, count) = (blocks.Number(0) + blocks.Number(1), count + blocks.Number(1));
            }
        }

        long read = logbook.Samples(run, device).LongCount();
        if (read != count)
            _damage.Add($"run {run}: device {device} has {read} samples where its blocks say {count}");
        _samples += read;
        return count;
    }

    private void CheckScans(string run, long[] samples, bool whole)
    {
        long last = 0;
        ScanRecord end = default;
        foreach (ref readonly ScanRecord scan in logbook.Scans(run))
        {
            if (whole ? scan.Scan != last + 1 : scan.Scan <= last)
                _damage.Add($"run {run}: scan {scan.Scan} follows scan {last}");
            last = scan.Scan;
            end = scan;
            _scans++;
        }

        // Samples that no scan has taken yet are normal; a scan that took samples which are gone is not.
        for (int device = 0; whole && device < samples.Length && last > 0; device++)
        {
            if (end.Watermarks[device] > samples[device])
                _damage.Add($"run {run}: the scans took {end.Watermarks[device]} samples of device {device}, of which {samples[device]} are here");
        }
    }

    private void Guarded(string what, Action look)
    {
        try
        {
            look();
        }
        catch (Exception fault) when (fault is StorageException or InvalidDataException or InvalidCastException)
        {
            _damage.Add($"{what}: {fault.Message}");
        }
    }
}
