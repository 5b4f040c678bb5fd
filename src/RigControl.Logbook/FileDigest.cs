using System.Security.Cryptography;
using RigControl.Model.Records;

namespace RigControl.Logbook;

/// <summary>Makes and checks what the logbook keeps of a file.</summary>
public static class FileDigest
{
    /// <summary>A file as it is now.</summary>
    /// <exception cref="IOException">It cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public static Attachment Of(string path, DateTimeOffset now, double? offset)
    {
        path = Path.GetFullPath(path);
        using FileStream file = new(path, FileMode.Open, FileAccess.Read, FileShare.Read);
        return new Attachment(path, Convert.ToHexStringLower(SHA256.HashData(file)), file.Length, now, offset);
    }

    /// <summary>What became of a file since, as a clause; null where it is the same.</summary>
    public static (string What, bool Damage)? Change(Attachment file)
    {
        try
        {
            return Of(file.Path, file.AttachedAt, file.Offset) == file ? null : ("is no longer what it was when it was attached", true);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return ("cannot be found or read where it was when it was attached", false);
        }
    }
}
