using System.Reflection;
using System.Security.Cryptography;
using RigControl.Model.Records;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Runs;

/// <summary>Writes the provenance of a run.</summary>
internal static class Headers
{
    private const string Letters = "abcdefghjkmnpqrstuvwxyz23456789";

    public static string Version { get; } =
        typeof(Headers).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "0.0.0";

    public static RunHeader Of(AssembledRig rig, string operatorName, ulong seed) => new()
    {
        Run = RandomNumberGenerator.GetString(Letters, 8),
        StartedAt = DateTimeOffset.UtcNow,
        Simulated = rig.Simulated,
        Seed = seed,
        Operator = operatorName,
        Software = Version,
        Procedure = rig.Documents.ProcedureText,
        Rig = rig.Documents.RigText,
        Article = rig.Documents.ArticleText,
        Rehearsal = rig.Documents.RehearsalText,
        Plugins = rig.PluginIdentities,
        Devices = rig.DeviceIdentities,
        Interlocks = rig.InterlockIdentities,
        Channels = rig.Channels,
    };
}
