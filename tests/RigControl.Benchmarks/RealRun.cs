using System.Globalization;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Sessions;

namespace RigControl.Benchmarks;

/// <summary>
/// A run at 1 kHz on the real clock with the record kept as that of a real rig, and cyclictest beside it: how late the scan is, the
/// longest pause that a collection made, and how the memory goes.
/// </summary>
internal static class RealRun
{
    private const int Rate = 1000;

    /// <param name="seconds">How long the level is held.</param>
    public static IEnumerable<Row> Measure(double seconds)
    {
        string folder = Directory.CreateTempSubdirectory("rigcontrol-benchmark-").FullName;
        try
        {
            using AssembledRig rig = SampleRig.Assemble(SampleRig.Documents(SampleRig.Holding(seconds), Rate));
            rig.ConfirmFailsafe();
            using LogbookFile logbook = LogbookFile.Open(Path.Combine(folder, "logbook.sqlite"));
            // As a real rig's, so that it is flushed to the disk every second.
            using IRunRecorder recorder = logbook.Begin(SampleRig.Header(rig) with { Simulated = false });
            double[] late = new double[(int)((seconds + 60) * Rate)];
            int scans = 0;
            using RunSession session = new(rig, recorder, new ScriptedOperator(rig.Documents.Procedure), Pace.Real, [], null)
            {
                OnWake = by => late[scans++ % late.Length] = by.TotalMicroseconds,
            };
            using CyclicTest reference = new(seconds);
            using MemoryWatch memory = new();
            RunResult result = session.Run();
            memory.Stop();
            return Rows(seconds, result, new Spread(late[..Math.Min(scans, late.Length)]), reference.Finish(), memory);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static IEnumerable<Row> Rows(double seconds, RunResult result, Spread late, Spread? reference, MemoryWatch memory)
    {
        string how = string.Create(CultureInfo.InvariantCulture, $"{seconds / 60:0.#} min at {Rate} Hz with the record kept, {OutcomeOf(result)}");
        yield return new Row(
            $"lateness of the scan, {how}", late.Text("us"), reference is null ? "cyclictest is not installed" : "cyclictest beside it: " + reference.Text("us"),
            reference is null ? "–" : string.Create(CultureInfo.InvariantCulture, $"median {late.At(0.5) / reference.At(0.5):0.00}, 99 % {late.At(0.99) / reference.At(0.99):0.00}"));
        yield return new Row(
            $"longest pause of a collection, {how}", string.Create(CultureInfo.InvariantCulture, $"{memory.LongestPause:0.0} ms of {memory.Collections} collections"),
            string.Create(CultureInfo.InvariantCulture, $"period of the scan: {1000.0 / Rate:0.#} ms"), string.Create(CultureInfo.InvariantCulture, $"{memory.LongestPause * Rate / 1000:0.00}"));
        yield return new Row(
            $"memory, {how}", memory.LastThird, "the middle third of the same run: " + memory.MiddleThird,
            string.Create(CultureInfo.InvariantCulture, $"{memory.Growth:0.000}"));
    }

    private static string OutcomeOf(RunResult result) => result.Outcome == RunOutcome.Completed ? "completed" : $"ended in {result.Outcome} ({result.Note})";
}
