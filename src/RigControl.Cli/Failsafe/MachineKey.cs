using System.Security.Cryptography;
using RigControl.Logbook;
using RigControl.Runtime.Failsafe;

namespace RigControl.Cli.Failsafe;

/// <summary>The key with which this machine seals its failsafe proofs: made once, readable by its user alone.</summary>
internal static class MachineKey
{
    /// <summary>In the per-user data folder, not beside the logbook: whoever copies a logbook does not copy the key.</summary>
    public static string DefaultPath => Path.Combine(Path.GetDirectoryName(LogbookFile.DefaultPath(null))!, "machine.key");

    /// <exception cref="CliException">It can neither be read nor made.</exception>
    public static byte[] Read(string path)
    {
        try
        {
            if (!File.Exists(path))
                Make(path);
            byte[] key = File.ReadAllBytes(path);
            return key.Length == ProofSeal.KeyLength
                ? key
                : throw new CliException(ExitCode.DeviceOrStorage, $"{path}: is not the key that this program wrote; move it away, and verify the failsafe again");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new CliException(ExitCode.DeviceOrStorage, $"{path}: the key for failsafe proofs cannot be read or made: {e.Message}");
        }
    }

    private static void Make(string path)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        FileStreamOptions options = new() { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        using FileStream file = new(path, options);
        file.Write(RandomNumberGenerator.GetBytes(ProofSeal.KeyLength));
    }
}
