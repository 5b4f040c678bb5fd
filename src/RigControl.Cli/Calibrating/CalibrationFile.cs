using System.Text.Json;
using System.Text.Json.Serialization;
using RigControl.Analysis.Calibrations;

namespace RigControl.Cli.Calibrating;

/// <summary>The calibrations of a place, every one ever taken, the newest last: a JSON file that people may read and keep.</summary>
internal sealed class CalibrationFile(string path)
{
    private static readonly JsonSerializerOptions Options = new()
    {
        WriteIndented = true, PropertyNamingPolicy = JsonNamingPolicy.CamelCase, Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    };

    public string Path => path;

    /// <summary>The file beside a logbook.</summary>
    public static CalibrationFile Beside(string logbook) => new(System.IO.Path.ChangeExtension(logbook, ".calibrations.json"));

    /// <summary>Everything in the file; empty where there is none.</summary>
    public IReadOnlyList<Calibration> Read()
    {
        if (!File.Exists(path))
            return [];
        try
        {
            IReadOnlyList<Calibration> all = JsonSerializer.Deserialize<List<Calibration>>(File.ReadAllText(path), Options) ?? [];
            return all.All(IsWhole) ? all : throw new CliException(ExitCode.BadInput, $"{path}: a calibration lacks its coefficients; take it anew or remove it");
        }
        catch (Exception e) when (e is JsonException or IOException or UnauthorizedAccessException)
        {
            throw new CliException(ExitCode.BadInput, $"{path}: cannot be read as calibrations: {e.Message}; name another file with --calibrations or move this one away");
        }
    }

    /// <summary>The one in force for each channel of a rig.</summary>
    public IReadOnlyDictionary<string, Calibration> Of(string rig)
    {
        Dictionary<string, Calibration> latest = [];
        foreach (Calibration c in Read().Where(c => c.Rig == rig))
            latest[c.Channel] = c;
        return latest;
    }

    /// <summary>Adds one; what was there stays.</summary>
    public void Add(Calibration calibration)
    {
        List<Calibration> all = [.. Read(), calibration];
        try
        {
            Directory.CreateDirectory(System.IO.Path.GetDirectoryName(System.IO.Path.GetFullPath(path))!);
            // Written beside and moved, so that a full disk never costs the old ones.
            File.WriteAllText(path + ".new", JsonSerializer.Serialize(all, Options));
            File.Move(path + ".new", path, overwrite: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new CliException(ExitCode.DeviceOrStorage, $"{path}: cannot be written: {e.Message}");
        }
    }

    private static bool IsWhole(Calibration c) => c is { Coefficients.Length: 3, Covariance.Length: 9 } && c.Coefficients.Concat(c.Covariance).All(double.IsFinite);
}
