using System.Security.Cryptography;
using System.Text;

namespace RigControl.Runtime.Plugins;

/// <summary>Identifies a plugin by its whole folder, so that a changed dependency shows too.</summary>
internal static class FolderDigest
{
    /// <summary>SHA-256 over the names and contents of all files, in order of name; hexadecimal.</summary>
    public static string Of(string folder)
    {
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (string file in Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
        {
            hash.AppendData(Encoding.UTF8.GetBytes(Path.GetRelativePath(folder, file).Replace('\\', '/')));
            hash.AppendData(SHA256.HashData(File.ReadAllBytes(file)));
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
