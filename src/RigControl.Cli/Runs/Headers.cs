using System.Diagnostics;
using System.Globalization;
using System.Reflection;
using System.Security.Cryptography;
using RigControl.Analysis.Calibrations;
using RigControl.Model.Records;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Sessions;

namespace RigControl.Cli.Runs;

/// <summary>Writes the provenance of a run.</summary>
internal static class Headers
{
    private const string Letters = "abcdefghjkmnpqrstuvwxyz23456789";

    public static string Version { get; } =
        typeof(Headers).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "0.0.0";

    /// <param name="calibrations">In force for the rig.</param>
    public static RunHeader Of(AssembledRig rig, PluginCatalog catalog, string operatorName, ulong seed, Pace pace, IEnumerable<Calibration> calibrations) => new()
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
        Devices = [.. rig.DeviceIdentities.Select(d => d with { Options = OptionsOf(rig, catalog, d) })],
        Clock = ClockOf(pace),
        Calibrations = [.. calibrations.OrderBy(c => c.Channel, StringComparer.Ordinal).Select(Of)],
        Interlocks = rig.InterlockIdentities,
        Channels = rig.Channels,
    };

    // The host itself is in no rig file.
    private static IReadOnlyDictionary<string, string> OptionsOf(AssembledRig rig, PluginCatalog catalog, DeviceIdentity device) =>
        rig.Documents.Rig.Devices.FirstOrDefault(d => d.Id == device.Id) is { } defined ? catalog.OptionsOf(defined.Plugin, defined.Options) : new Dictionary<string, string>();

    // What the scan itself made of it stands in scan.lateness.
    private static string ClockOf(Pace pace) => pace.Kind == PaceKind.Real
        ? string.Create(CultureInfo.InvariantCulture, $"real, monotonic, in steps of {1e9 / Stopwatch.Frequency:0.#} ns")
        : "virtual, a scan period at every scan";

    private static CalibrationIdentity Of(Calibration c)
    {
        string correction = c.IsTared
            ? string.Create(CultureInfo.InvariantCulture, $"{c.Coefficients[1]:R} (x − {c.Tare:R}) + {c.Coefficients[2]:R} (x² − {c.Tare * c.Tare:R}) {c.Unit}, tared{(c.TareAt is { } tared ? $" on {tared.UtcDateTime:yyyy-MM-dd}" : "")}")
            : string.Create(CultureInfo.InvariantCulture, $"{c.Coefficients[0]:R} {c.Unit} + {c.Coefficients[1]:R} x + {c.Coefficients[2]:R} x²");
        return new CalibrationIdentity(c.Channel, c.At, c.ValidUntil, correction, c.Reference);
    }
}
