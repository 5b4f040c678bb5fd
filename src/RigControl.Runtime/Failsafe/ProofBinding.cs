using System.Security.Cryptography;
using System.Text;
using RigControl.Model.Records;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;

namespace RigControl.Runtime.Failsafe;

/// <summary>What a proof is bound to: rig file, whole article file, calibration, every assembly of the host, plugin folders, and what every device says of itself.</summary>
public static class ProofBinding
{
    // Ending of the fact that a board draws anew with every start.
    private const string Nonce = " nonce";

    // Read once: what is loaded does not change while it runs.
    private static readonly Lazy<string> HostBuild = new(() => FolderDigest.OfAssemblies(AppContext.BaseDirectory));

    // What says how a device came up, not what it is; and what belongs to a simulated run.
    private static readonly string[] Passing = ["last-reset", "seed"];

    /// <param name="rig">Opened.</param>
    /// <param name="calibration">Text of the calibrations in force; empty where there are none.</param>
    public static SortedDictionary<string, string> Of(AssembledRig rig, string calibration) =>
        Of(rig.Documents, calibration, HostBuild.Value, rig.PluginIdentities, rig.DeviceIdentities);

    internal static SortedDictionary<string, string> Of(
        RigDocuments documents, string calibration, string hostBuild, IReadOnlyList<PluginIdentity> plugins, IReadOnlyList<DeviceIdentity> devices)
    {
        SortedDictionary<string, string> bound = new(StringComparer.Ordinal)
        {
            ["rig file"] = Digest(documents.RigText.Text),
            ["article file"] = Digest(documents.ArticleText.Text),
            ["calibration"] = Digest(calibration),
            ["host build"] = hostBuild,
        };
        foreach (PluginIdentity plugin in plugins)
            bound[$"plugin {plugin.Assembly}"] = plugin.Digest;
        foreach (DeviceIdentity device in devices)
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

    private static string Digest(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..32];
}
