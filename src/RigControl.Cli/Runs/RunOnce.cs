using RigControl.Analysis.Calibrations;
using RigControl.Cli.Calibrating;
using RigControl.Cli.Failsafe;
using RigControl.Cli.Judging;
using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Rehearsals;
using RigControl.Cli.Terminal;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Runtime.Failsafe;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;
using RigControl.Runtime.Sessions;
using RigControl.Telemetry.Publishing;

namespace RigControl.Cli.Runs;

/// <summary>One run from files to figures: read, assemble, record, run, reckon, show.</summary>
internal static class RunOnce
{
    public static int Run(RunRequest request)
    {
        PluginCatalog catalog = PluginCatalog.Load(request.Plugins ?? PluginCatalog.DefaultFolder);
        foreach (BrokenPlugin broken in catalog.Broken)
            Console.Error.WriteLine($"{broken.Assembly} cannot be used: {broken.Reason}");
        DocumentLoader loader = new(catalog);
        RigDocuments documents = loader.FromFiles(
            request.Rig ?? DocumentLoader.SimulatedRig, ArticleFile(request.Rig, request.Article), ProcedureFile(request.Rig, request.Procedure));
        if (request.Rehearsal is { } rehearsal)
            documents = RehearsalDocument.Into(documents, rehearsal);
        using LogbookFile book = LogbookFile.Open(request.Logbook ?? Logbooks.DefaultPath);
        LastSeconds.Tell(book);
        ProofShelf shelf = new(book, MachineKey.DefaultPath);
        using AssembledRig rig = Proven(request, documents, catalog, book, shelf, out ProofVerdict proof);
        loader.Check(rig.Channels);
        Bench bench = Bench.Choose(request, rig);
        // Read once: what stands in the header is what the figures are corrected by.
        IReadOnlyDictionary<string, Calibration> calibrations = CalibrationFile.Beside(request.Logbook ?? Logbooks.DefaultPath).Of(documents.Rig.Name);
        RunHeader header = Headers.Of(rig, catalog, bench.Operator.Name, request.Seed ?? 1, request.Pace, calibrations.Values);
        IReadOnlyList<RigEvent> before = RotorBefore.Follow(rig, book);
        using IRunRecorder recorder = book.Begin(header);
        using RigTelemetry? telemetry = Publishing.Start(request, rig, header);
        RunResult result = RefusalOf(rig, proof, book) is { } objection ? Refuse(rig, recorder, objection) : bench.Run(rig, recorder, request, before, proof, telemetry);
        IReadOnlyList<Figure> figures = result.Storage is null ? Reckoning.Figures(book, header, documents, calibrations) : [];
        RunEnd end = new(result.Outcome, DateTimeOffset.UtcNow, result.Note);
        if (result.Storage is null)
            recorder.Finish(end, figures);
        telemetry?.Finish(end, figures);
        try
        {
            Show(book, header, result, request.Json);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The run is what it was, and it is in the logbook.
            Console.Error.WriteLine($"the result cannot be written: {e.Message}; runs show {header.Run} tells it again");
        }

        return ExitOf(result);
    }

    /// <summary>The article meant; only the simulated rig has one of its own.</summary>
    public static string ArticleFile(string? rig, string? article) => article ?? (rig is null
        ? DocumentLoader.SampleArticle
        : throw new CliException(ExitCode.BadInput, "name the article on the rig with --article FILE; only the simulated rig has one of its own"));

    /// <summary>The procedure meant; only the simulated rig has one of its own.</summary>
    public static string ProcedureFile(string? rig, string? procedure) => procedure ?? (rig is null
        ? DocumentLoader.SampleProcedure
        : throw new CliException(ExitCode.BadInput, "name the procedure file; only the simulated rig has one of its own"));

    /// <exception cref="CliException">Every reason; exit code 5 where a device failed, 2 where the files do.</exception>
    public static AssembledRig Assemble(RigDocuments documents, PluginCatalog catalog, ulong seed)
    {
        try
        {
            return new RigAssembler(catalog, TimeProvider.System).Assemble(documents, seed);
        }
        catch (AssemblyException e)
        {
            throw new CliException(e.IsDevice ? ExitCode.DeviceOrStorage : ExitCode.BadInput, e.Reasons);
        }
    }

    // Where a proof is needed and there is none, the verification comes first, on the same rig and in the same session of work.
    private static AssembledRig Proven(RunRequest request, RigDocuments documents, PluginCatalog catalog, LogbookFile book, ProofShelf shelf, out ProofVerdict proof)
    {
        AssembledRig rig = Assemble(documents, catalog, request.Seed ?? 1);
        proof = rig.Simulated ? new ProofVerdict(false, null, "nothing real is behind the rig") : shelf.Judge(rig, ComputerClock.Read(TimeProvider.System));
        if (proof.IsValid || !NeedsProof(rig) || Containment.ObjectionTo(documents, VerifiedCut.Of(proof.Renewable, documents.Rig), book) is not null || request.Operator == "scripted" || Console.IsInputRedirected)
            return rig;
        rig.Dispose();
        Console.Error.WriteLine($"{proof.Reason}; it is verified first");
        Verified verified = new VerifyOnce(request, catalog, book, shelf).Run(ProofJudge.UsualTime, proof.Renewable);
        foreach (string line in FailsafeDocument.Lines(verified))
            Console.Error.WriteLine(line);
        rig = Assemble(documents, catalog, request.Seed ?? 1);
        proof = shelf.Judge(rig, ComputerClock.Read(TimeProvider.System));
        return rig;
    }

    // Nothing that stores energy runs on a real rig whose ways to stop have not been seen to work.
    private static bool NeedsProof(AssembledRig rig) => !rig.Simulated && rig.Documents.Article.Rotor is not null && rig.Documents.Procedure.Energises;

    private static Objection? RefusalOf(AssembledRig rig, ProofVerdict proof, LogbookFile book)
    {
        if (!NeedsProof(rig))
            return null;
        return Containment.ObjectionTo(rig.Documents, VerifiedCut.Of(proof.Held, rig.Documents.Rig), book) ?? (proof.IsValid
            ? null
            : new("failsafe-proof", $"a real rig runs a rotor only with a valid failsafe proof: {proof.Reason}; verify it with rigcontrol failsafe"));
    }

    private static RunResult Refuse(AssembledRig rig, IRunRecorder recorder, Objection objection)
    {
        RecordChunk chunk = new(rig.DeviceIdentities.Count);
        chunk.Events.Add(new RigEvent(TimeSpan.Zero, 0, EventNames.Refusal, objection.Interlock, objection.Reason, new Dictionary<string, object>()));
        recorder.Append(chunk);
        recorder.Commit();
        return new RunResult(RunOutcome.Refused, [objection], null, null);
    }

    private static void Show(LogbookFile book, RunHeader header, RunResult result, bool json)
    {
        if (result.Storage is { } lost)
            Console.Error.WriteLine($"the record is incomplete: {lost.Message}");
        RunRecord record = RunRecord.Read(book, header.Run);
        foreach (var refusal in result.Refusals)
            Console.Error.WriteLine($"refused: {refusal.Reason}");
        if (json)
            JsonText.Write(RunDocument.Of(record));
        else
            RunText.Print(record);
    }

    private static int ExitOf(RunResult result) => result.Outcome switch
    {
        RunOutcome.Completed => ExitCode.Done,
        RunOutcome.Refused => ExitCode.Refused,
        RunOutcome.SafeStop => ExitCode.SafeStop,
        _ => ExitCode.DeviceOrStorage,
    };
}
