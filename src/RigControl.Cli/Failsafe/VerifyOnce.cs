using RigControl.Analysis.Calibrations;
using RigControl.Cli.Calibrating;
using RigControl.Cli.Judging;
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
internal sealed record Verified(string Run, FailsafeProof? Proof, IReadOnlyList<ProvocationResult> Results, RunResult Result)
{
    /// <summary>What it was turned at most with; null where it was not turned.</summary>
    public CeilingEnergy? Ceiling { get; init; }
}

/// <summary>One verification of a rig's failsafe, from files to proof.</summary>
internal sealed class VerifyOnce(RunRequest request, PluginCatalog catalog, LogbookFile book, ProofShelf shelf)
{
    /// <param name="lasting">How long the proof of a whole verification is good.</param>
    /// <param name="renewed">The proof that a short verification makes good again, for as long as it was; null for the whole.</param>
    /// <param name="rotorRemoved">Whether the rotor is off, so that what it would store is no objection. Rests on the operator's word.</param>
    /// <exception cref="CliException">The article may not be turned on this rig, or nobody says that the rotor is off; exit code 3.</exception>
    public Verified Run(TimeSpan lasting, FailsafeProof? renewed = null, bool rotorRemoved = false)
    {
        VerificationScope scope = renewed is null ? VerificationScope.Whole : VerificationScope.AfterRestart;
        RigDocuments documents = new DocumentLoader(catalog).ForLooking(
            request.Rig ?? DocumentLoader.SimulatedRig, RunOnce.ArticleFile(request.Rig, request.Article)) with { Verifies = scope };
        using AssembledRig rig = RunOnce.Assemble(documents, catalog, request.Seed ?? 1);
        // What no run would be allowed to turn is not turned to prove its failsafe either.
        if (!rig.Simulated && !rotorRemoved && Containment.ObjectionTo(rig.Documents, VerifiedCut.Of(renewed, rig.Documents.Rig), book) is { } objection)
            throw new CliException(ExitCode.Refused, $"refused: {objection.Reason}");
        Bench bench = Bench.Choose(request, rig);
        CeilingEnergy? ceiling = renewed is null ? CeilingEnergy.Of(documents.Article, rotorRemoved) : null;
        if (ceiling is not null)
            Console.Error.WriteLine(ceiling.Sentence);
        ProvocationResult[] said = rotorRemoved ? [RotorQuestion.Ask(bench.Operator)] : [];
        VerificationWatch watch = new(rig.Configuration, rig.Documents.Rig);
        IReadOnlyDictionary<string, Calibration> calibrations = CalibrationFile.Beside(request.Logbook ?? Logbooks.DefaultPath).Of(documents.Rig.Name);
        RunHeader header = Headers.Of(rig, catalog, bench.Operator.Name, request.Seed ?? 1, request.Pace, calibrations.Values);
        IReadOnlyList<RigEvent> before = RotorBefore.Follow(rig, book);
        using IRunRecorder recorder = book.Begin(header);
        RunResult result = bench.Verify(rig, recorder, request, before, watch);
        IReadOnlyList<ProvocationResult> results = [.. watch.Results, .. said];
        FailsafeProof? proof = null;
        if (result is { Outcome: RunOutcome.Completed, Storage: null } && watch.AllPassed)
            proof = ProofOf(header, results, rig, lasting, renewed) is { } made ? shelf.Keep(made, rig, recorder) : null;
        if (result.Storage is null)
            recorder.Finish(new RunEnd(result.Outcome, DateTimeOffset.UtcNow, result.Note), []);
        return new Verified(header.Run, proof, results, result) { Ceiling = ceiling };
    }

    // Null where more changed than the board's start since the short verification was found to be enough.
    private FailsafeProof? ProofOf(RunHeader header, IReadOnlyList<ProvocationResult> results, AssembledRig rig, TimeSpan lasting, FailsafeProof? renewed)
    {
        ComputerClock now = ComputerClock.Read(TimeProvider.System);
        FailsafeProof made = new()
        {
            Run = header.Run, MadeAt = now.Wall, ValidUntil = now.Wall + lasting, Clock = now, Simulated = rig.Simulated, BoundTo = shelf.BindingOf(rig), Provocations = results,
            NotProvoked = Unprovoked.Of(rig),
        };
        return renewed is null ? made : made.Renewing(renewed);
    }
}
