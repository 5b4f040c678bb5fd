using System.Diagnostics;
using RigControl.Cli.Comparing;
using RigControl.Cli.Output;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Sessions;

namespace RigControl.Benchmarks;

/// <summary>
/// A comparison of fifty whole runs of the simulated rig with all their samples, half of them with a heavier rotor, so that
/// conditions are read and the spin-up is split by cause, in a warm process.
/// </summary>
internal static class RecordedRuns
{
    private const int Count = 50;
    private const int Repeats = 8;

    public static IEnumerable<Row> Measure()
    {
        using Scratch scratch = new();
        using LogbookFile book = LogbookFile.Open(scratch.File);
        string[] runs = [.. Enumerable.Range(0, Count).Select(i => Record(book, i))];
        string[] sides = [string.Join('+', runs.Where((_, i) => i % 2 == 0)), string.Join('+', runs.Where((_, i) => i % 2 == 1))];
        (double compared, double read) = (double.PositiveInfinity, double.PositiveInfinity);
        for (int i = 0; i < Repeats; i++)
        {
            compared = Math.Min(compared, Time(() => JsonText.Of(ComparisonDocument.Of(RunComparison.Of(book, [.. sides.Select(s => RunGroup.Read(book, s))])))));
            read = Math.Min(read, Time(() => Decode(book, runs)));
        }

        yield return new Row($"comparing {Count} recorded runs, with conditions and the split of the spin-up", $"{compared:0} ms", $"decoding every sample of them: {read:0} ms", $"{compared / read:0.00}");
    }

    private static string Record(LogbookFile book, int place)
    {
        RigDocuments documents = SampleRig.Documents(inertia: place % 2 == 0 ? "0.00018225 kg.m2" : "0.00020 kg.m2");
        using AssembledRig rig = new RigAssembler(SampleRig.Catalog, TimeProvider.System).Assemble(documents, (ulong)place + 1);
        rig.ConfirmFailsafe();
        RunHeader header = SampleRig.Header(rig) with { Run = $"r{place:d5}", StartedAt = new DateTimeOffset(2031, 1, 1, 0, 0, 0, TimeSpan.Zero).AddMinutes(place), Procedure = documents.ProcedureText, Rig = documents.RigText, Article = documents.ArticleText };
        using IRunRecorder recorder = book.Begin(header);
        using RunSession session = new(rig, recorder, new ScriptedOperator(documents.Procedure), Pace.Max, [], null);
        RunResult result = session.Run();
        if (result.Outcome != RunOutcome.Completed)
            throw new InvalidOperationException("the benchmark's run did not complete: " + result.Note);
        recorder.Finish(new RunEnd(result.Outcome, header.StartedAt, null), Reckoning.Figures(book, header, documents, new Dictionary<string, RigControl.Analysis.Calibrations.Calibration>()));
        return header.Run;
    }

    private static void Decode(LogbookFile book, string[] runs)
    {
        foreach (string run in runs)
        {
            for (int device = 0; device < book.Header(run).Devices.Count; device++)
            {
                foreach (Sample sample in book.Samples(run, device))
                    GC.KeepAlive(sample.Value);
            }
        }
    }

    private static double Time(Action act)
    {
        long began = Stopwatch.GetTimestamp();
        act();
        return Stopwatch.GetElapsedTime(began).TotalMilliseconds;
    }
}
