using RigControl.Logbook.Blocks;
using RigControl.Logbook.Storage;
using RigControl.Logbook.Texts;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Logbook;

/// <summary>
/// Writes one run. Chunks gather in a transaction until <see cref="Commit"/>; a transaction that holds events, and of a real
/// run one a second of record time, is flushed to the disk and survives a pulled plug, the others survive a killed process.
/// After a failure nothing more is appended, since the record would have a hole; the end can still be written.
/// </summary>
internal sealed class RunRecorder : IRunRecorder
{
    /// <summary>Record time of a real run that a pulled plug may cost at most, besides what is not committed.</summary>
    private static readonly TimeSpan FlushInterval = TimeSpan.FromSeconds(1);

    private readonly Database _database;
    private readonly RunMark _mark;
    private readonly RunTables _tables;
    private readonly bool _simulated;
    private readonly ScanEncoder _scans = new();
    private readonly SampleEncoder _samples;
    private readonly long[] _written;
    private readonly Batch _batch;
    private TimeSpan _flushedAt;
    private StorageException? _failure;
    private bool _finished;

    public RunRecorder(Database database, RunMark mark, long run, RunHeader header)
    {
        _database = database;
        _mark = mark;
        _tables = new RunTables(database, run);
        _batch = new Batch(database);
        _simulated = header.Simulated;
        _samples = new SampleEncoder(ReadingSteps.Of(header));
        _written = new long[header.Devices.Count];
    }

    /// <summary>The connection, so that a test can make the disk seem full.</summary>
    internal Database Database => _database;

    public void Append(RecordChunk chunk)
    {
        ObjectDisposedException.ThrowIf(_finished, this);
        if (chunk.IsEmpty)
            return;
        Guarded(() =>
        {
            _batch.Open(flushed: MustFlush(chunk));
            AppendScans(chunk);
            for (int device = 0; device < chunk.Devices.Length; device++)
                AppendSamples(device, chunk.Devices[device].Samples);
            foreach (RigEvent happened in chunk.Events)
                _tables.AddEvent(happened);
        });
    }

    public void Commit() => Guarded(_batch.Close);

    public void Finish(RunEnd end, IReadOnlyList<Figure> figures)
    {
        ObjectDisposedException.ThrowIf(_finished, this);
        if (_failure is not null)
            _batch.Abandon();
        _failure = null;
        Guarded(() => WriteEnd(end, figures));
        _finished = true;
    }

    private void WriteEnd(RunEnd end, IReadOnlyList<Figure> figures)
    {
        _batch.Open(flushed: true);
        foreach (Figure figure in figures)
            _tables.AddFigure(figure);
        _tables.SetEnd(end);
        _batch.Close();
    }

    /// <summary>Lets go of the run. Without <see cref="Finish"/> it keeps what was appended and shows as broken off.</summary>
    public void Dispose()
    {
        try
        {
            if (_failure is null)
                _batch.Close();
        }
        catch (StorageException)
        {
            // Nothing more can be saved, and whoever disposes has already been told of the first failure or gives up.
        }
        _tables.Dispose();
        _database.Dispose();
        _mark.Dispose();
    }

    private bool MustFlush(RecordChunk chunk)
    {
        if (chunk.Events.Count > 0)
            return true;
        if (_simulated || chunk.ScanCount == 0)
            return false;
        TimeSpan now = chunk.Scans[chunk.ScanCount - 1].Now;
        if (now - _flushedAt < FlushInterval)
            return false;
        _flushedAt = now;
        return true;
    }

    private void AppendScans(RecordChunk chunk)
    {
        ReadOnlySpan<ScanRecord> scans = chunk.Scans.AsSpan(0, chunk.ScanCount);
        if (scans.Length > 0)
            _tables.AddScans(scans[0].Scan, scans.Length, scans[0].Now, _scans.Encode(scans).ToArray());
    }

    private void AppendSamples(int device, ReadOnlySpan<Sample> samples)
    {
        if (samples.IsEmpty)
            return;
        TimeSpan earliest = samples[0].At, latest = samples[0].At;
        foreach (ref readonly Sample sample in samples)
        {
            if (sample.At < earliest) earliest = sample.At;
            if (sample.At > latest) latest = sample.At;
        }
        _tables.AddSamples(device, _written[device], samples.Length, earliest, latest, _samples.Encode(samples).ToArray());
        _written[device] += samples.Length;
    }

    private void Guarded(Action act)
    {
        if (_failure is not null)
            throw _failure;
        try
        {
            act();
        }
        catch (StorageException failure)
        {
            _failure = failure;
            throw;
        }
    }
}
