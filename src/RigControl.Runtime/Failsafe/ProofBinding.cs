using System.Security.Cryptography;
using System.Text;
using RigControl.Model.Records;
using RigControl.Runtime.Rigs;

namespace RigControl.Runtime.Failsafe;

/// <summary>What a proof is bound to: rig file, whole article file, calibration, host build, plugin folders, and what every device says of itself.</summary>
public static class ProofBinding
{
    // Ending of the fact that a board draws anew with every start.
    private const string Nonce = " nonce";

    private static readonly string[] Rooms = ["RigControl.Kernel", "RigControl.Runtime", "RigControl.Model"];

    // What says how a device came up, not what it is; and what belongs to a simulated run.
    private static readonly string[] Passing = ["last-reset", "seed"];

    /// <param name="rig">Opened.</param>
    /// <param name="calibration">Text of the calibrations in force; empty where there are none.</param>
    public static SortedDictionary<string, string> Of(AssembledRig rig, string calibration)
    {
        SortedDictionary<string, string> bound = new(StringComparer.Ordinal)
        {
            ["rig file"] = Digest(rig.Documents.RigText.Text),
            ["article file"] = Digest(rig.Documents.ArticleText.Text),
            ["calibration"] = Digest(calibration),
            ["host build"] = HostBuild,
        };
        foreach (PluginIdentity plugin in rig.PluginIdentities)
            bound[$"plugin {plugin.Assembly}"] = plugin.Digest;
        foreach (DeviceIdentity device in rig.DeviceIdentities)
        {
            foreach ((string fact, string value) in device.Facts.Where(f => !Passing.Contains(f.Key)))
                bound[$"device {device.Id} {fact}"] = value;
        }

        return bound;
    }

    /// <summary>Names of what is no longer as it was.</summary>
    public static IReadOnlyList<string> Changes(SortedDictionary<string, string> then, SortedDictionary<string, string> now) =>
        [.. then.Keys.Union(now.Keys).Where(k => then.GetValueOrDefault(k) != now.GetValueOrDefault(k)).Order(StringComparer.Ordinal)];

    /// <summary>Whether a board's start is all that changed.</summary>
    public static bool IsRestart(IReadOnlyList<string> changes) => changes.All(c => c.EndsWith(Nonce, StringComparison.Ordinal));

    // The compiler gives each build of an assembly an identity of its own.
    private static string HostBuild { get; } = Digest(string.Join(' ', AppDomain.CurrentDomain.GetAssemblies()
        .Where(a => a.GetName().Name is { } name && Rooms.Contains(name)).Select(a => a.ManifestModule.ModuleVersionId).Order()));

    private static string Digest(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..32];
}
