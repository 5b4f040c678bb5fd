using RigControl.Analysis.Calibrations;
using RigControl.Cli.Calibrating;
using RigControl.Cli.Loading;
using RigControl.Cli.Runs;
using RigControl.Cli.Terminal;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Failsafe;

/// <summary>What a verification came to.</summary>
/// <param name="Run">Its run in the logbook.</param>
/// <param name="Proof">The proof; null where it did not pass.</param>
/// <param name="Results">What each step came to.</param>
/// <param name="Result">How its session went.</param>
internal sealed record Verified(string Run, FailsafeProof? Proof, IReadOnlyList<ProvocationResult> Results, RunResult Result);

/// <summary>One verification of a rig's failsafe, from files to proof.</summary>
internal sealed class VerifyOnce(RunRequest request, PluginCatalog catalog, LogbookFile book, ProofShelf shelf)
{
    /// <param name="scope">How much of it.</param>
    /// <param name="until">Until when the proof is to be good at most, from now.</param>
    public Verified Run(VerificationScope scope, TimeSpan until)
    {
        RigDocuments documents = new DocumentLoader(catalog.Kinds).ForLooking(
            request.Rig ?? DocumentLoader.SimulatedRig, RunOnce.ArticleFile(request.Rig, request.Article)) with { Verifies = scope };
        using AssembledRig rig = RunOnce.Assemble(documents, catalog, request.Seed ?? 1);
        Bench bench = Bench.Choose(request, rig);
        VerificationWatch watch = new(rig.Configuration);
        IReadOnlyDictionary<string, Calibration> calibrations = CalibrationFile.Beside(request.Logbook ?? Logbooks.DefaultPath).Of(documents.Rig.Name);
        RunHeader header = Headers.Of(rig, catalog, bench.Operator.Name, request.Seed ?? 1, request.Pace, calibrations.Values);
        using IRunRecorder recorder = book.Begin(header);
        RunResult result = bench.Verify(rig, recorder, request, watch);
        IReadOnlyList<ProvocationResult> results = watch.Results;
        FailsafeProof? proof = null;
        if (result is { Outcome: RunOutcome.Completed, Storage: null } && watch.AllPassed)
            proof = shelf.Keep(ProofOf(header, results, shelf.BindingOf(rig), rig.Simulated, until), rig, recorder);
        if (result.Storage is null)
            recorder.Finish(new RunEnd(result.Outcome, DateTimeOffset.UtcNow, result.Note), []);
        return new Verified(header.Run, proof, results, result);
    }

    private static FailsafeProof ProofOf(
        RunHeader header, IReadOnlyList<ProvocationResult> results, SortedDictionary<string, string> bound, bool simulated, TimeSpan until)
    {
        DateTimeOffset now = DateTimeOffset.UtcNow;
        return new FailsafeProof { Run = header.Run, MadeAt = now, ValidUntil = now + until, Simulated = simulated, BoundTo = bound, Provocations = results };
    }
}
