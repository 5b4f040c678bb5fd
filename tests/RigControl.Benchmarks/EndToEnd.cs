using System.Diagnostics;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Sessions;

namespace RigControl.Benchmarks;

/// <summary>
/// A whole run with the simulated rig and every record in the logbook, against the same run whose records are thrown away:
/// what keeping the record costs.
/// </summary>
internal static class EndToEnd
{
    // Long enough that starting up does not count: an hour of rig time, most of it holding a level.
    private static readonly string LongHold = SampleRig.Holding(3600);

    public static IEnumerable<Row> Measure()
    {
        Once(record: false);
        (double kept, double thrown, double size) = (0, 0, 0);
        for (int i = 0; i < 3; i++)
        {
            (double rate, double bytes) = Once(record: true);
            (kept, size) = rate > kept ? (rate, bytes) : (kept, size);
            thrown = Math.Max(thrown, Once(record: false).Rate);
        }

        yield return new Row("scans end to end, simulated rig, every record in the logbook", $"{kept:0} a second, {size:0.0} bytes a scan", $"records thrown away: {thrown:0} a second", $"{kept / thrown:0.00}");
    }

    private static (double Rate, double Bytes) Once(bool record)
    {
        string folder = Directory.CreateTempSubdirectory("rigcontrol-benchmark-").FullName;
        string file = Path.Combine(folder, "logbook.sqlite");
        try
        {
            using AssembledRig rig = SampleRig.Assemble(SampleRig.Documents(LongHold));
            rig.ConfirmFailsafe();
            using LogbookFile logbook = LogbookFile.Open(file);
            using Counted recorder = new(record ? logbook.Begin(SampleRig.Header(rig)) : null);
            using RunSession session = new(rig, recorder, new ScriptedOperator(rig.Documents.Procedure), Pace.Max, [], null);
            long began = Stopwatch.GetTimestamp();
            RunResult result = session.Run();
            double seconds = Stopwatch.GetElapsedTime(began).TotalSeconds;
            recorder.Finish(new RunEnd(result.Outcome, DateTimeOffset.UtcNow, null), []);
            if (result.Outcome != RunOutcome.Completed)
                throw new InvalidOperationException("the benchmark's run did not complete: " + result.Note);
            return (recorder.Scans / seconds, (double)new FileInfo(file).Length / recorder.Scans);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Counts scans on their way to a recorder, or to nowhere.</summary>
    private sealed class Counted(IRunRecorder? inner) : IRunRecorder
    {
        public long Scans { get; private set; }

        public void Append(RecordChunk chunk)
        {
            Scans += chunk.ScanCount;
            inner?.Append(chunk);
        }

        public void Commit() => inner?.Commit();

        public void Finish(RunEnd end, IReadOnlyList<Figure> figures) => inner?.Finish(end, figures);

        public void Dispose() => inner?.Dispose();
    }
}
