using RigControl.Cli.Loading;
using RigControl.Cli.Output;
using RigControl.Cli.Runs;
using RigControl.Kernel;
using RigControl.Rehearsal;
using RigControl.Rehearsal.Results;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Rehearsals;

/// <summary>What <c>rehearse</c> was asked for; null where an option was left out.</summary>
internal sealed record RehearsalRequest(
    string? Procedure, string? Rig, string? Article, string? Plugins, int Samples, ulong Seed, string? Output, bool Json);

/// <summary>One rehearsal from files to a prediction. No device is opened: the model stands in for all of them.</summary>
internal static class RehearseOnce
{
    public static int Run(RehearsalRequest request)
    {
        if (request.Samples is < 1 or > 100_000)
            throw new CliException(ExitCode.BadInput, $"--samples {request.Samples} is out of its range; write 1 to 100000");
        PluginCatalog catalog = PluginCatalog.Load(request.Plugins ?? PluginCatalog.DefaultFolder);
        RigDocuments documents = new DocumentLoader(catalog).FromFiles(
            request.Rig ?? DocumentLoader.SimulatedRig, RunOnce.ArticleFile(request.Rig, request.Article), RunOnce.ProcedureFile(request.Rig, request.Procedure));
        RehearsalResult result = Rehearser.Rehearse(Plan(documents, catalog), request.Samples, request.Seed);
        string document = RehearsalDocument.Write(documents, result);
        if (request.Output is { } file)
            WriteTo(file, document);
        if (request.Json)
            Console.Out.WriteLine(document);
        else
            RehearsalText.Print(documents, result);
        foreach (string refusal in result.Refusals)
            Console.Error.WriteLine($"refused: {refusal}");
        return result.Refusals.Count > 0 ? ExitCode.Refused : ExitCode.Done;
    }

    private static RehearsalPlan Plan(RigDocuments documents, PluginCatalog catalog)
    {
        // A rehearsal holds nothing against an earlier one.
        RigDocuments plain = documents with { Rig = documents.Rig with { Interlocks = [.. documents.Rig.Interlocks.Where(i => i.Plugin != "rehearsed-band")] } };
        var (interlocks, reasons) = new RigAssembler(catalog, TimeProvider.System).Bind(plain, RehearsalPlan.Channels(documents.Rig));
        try
        {
            return RehearsalPlan.Of(documents.Rig, documents.Article, documents.Procedure, interlocks, [.. reasons.Select(r => $"not rehearsed: {r}")])
                .At(AskedFor.InProcedure(documents.ProcedureText.Text));
        }
        catch (ConfigurationException e)
        {
            throw new CliException(ExitCode.BadInput, e.Reasons);
        }
    }

    private static void WriteTo(string file, string document)
    {
        try
        {
            File.WriteAllText(file, document);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            throw new CliException(ExitCode.BadInput, $"{file}: cannot be written: {e.Message}; name a file in a folder where you may write");
        }
    }
}
