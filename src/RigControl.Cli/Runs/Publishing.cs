using RigControl.Cli.Loading;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Rigs;
using RigControl.Telemetry.Links;
using RigControl.Telemetry.Publishing;

namespace RigControl.Cli.Runs;

/// <summary>Joins a run and telemetry, which know nothing of each other. Whatever telemetry lacks, the run goes on without it.</summary>
internal static class Publishing
{
    /// <summary>Begins to publish where the rig file or the option asks for it; null otherwise, or where its own files cannot be used.</summary>
    public static RigTelemetry? Start(RunRequest request, AssembledRig rig, RunHeader header)
    {
        TelemetryDefinition? wanted = rig.Documents.Rig.Telemetry ?? (request.Telemetry ? new TelemetryDefinition() : null);
        if (wanted is null)
            return null;
        try
        {
            TelemetrySettings settings = Settings(wanted, FolderOf(request.Rig), rig.Documents.Rig.Name, request.Logbook ?? Logbooks.DefaultPath);
            return RigTelemetry.Start(settings, header, rig.Configuration.ScanPeriod, Note);
        }
        catch (LinkException e)
        {
            Note(e.Message + "; the run is not published");
            return null;
        }
    }

    /// <summary>The broker of a rig file; null for the embedded one.</summary>
    /// <param name="folder">Folder of the rig file, from which its files are named.</param>
    /// <exception cref="LinkException">The secrets cannot be read.</exception>
    public static BrokerAddress? BrokerOf(TelemetryDefinition wanted, string folder) => wanted.Broker is not { } host ? null : new BrokerAddress
    {
        Host = host,
        Port = wanted.Port,
        Tls = wanted.Tls,
        Authority = At(folder, wanted.Authority),
        Pin = wanted.Pin,
        Credentials = At(folder, wanted.Secrets) is { } secrets ? Credentials.FromFile(secrets) : Credentials.FromEnvironment(Environment.GetEnvironmentVariable),
    };

    /// <summary>Folder of a rig file; the present one for the simulated rig and for standard input.</summary>
    public static string FolderOf(string? rig) => rig is null or "-" ? "." : Path.GetDirectoryName(Path.GetFullPath(rig)) ?? ".";

    private static TelemetrySettings Settings(TelemetryDefinition wanted, string folder, string rig, string logbook) => new()
    {
        Site = wanted.Site,
        Rig = rig,
        Broker = BrokerOf(wanted, folder),
        EmbeddedPort = wanted.Port,
        Users = At(folder, wanted.Users),
        StateRoot = Path.Combine(Path.GetDirectoryName(Path.GetFullPath(logbook)) ?? ".", "telemetry"),
    };

    private static string? At(string folder, string? file) => file is null ? null : Path.Combine(folder, file);

    private static void Note(string text) => Console.Error.WriteLine($"telemetry: {text}");
}
