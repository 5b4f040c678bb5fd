using System.Security.Cryptography;
using System.Text;

namespace RigControl.Runtime.Plugins;

/// <summary>Identifies a plugin by its whole folder, so that a changed dependency shows too, and the host by its assemblies.</summary>
internal static class FolderDigest
{
    /// <summary>SHA-256 over the names and contents of all files, in order of name; hexadecimal.</summary>
    public static string Of(string folder) => Of(folder, Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories));

    /// <summary>The same over the assemblies that lie in a folder itself: the program's own, and those of others that it stands on.</summary>
    /// <exception cref="FileNotFoundException">There is none, so that nothing would be identified.</exception>
    public static string OfAssemblies(string folder)
    {
        string[] assemblies = Directory.GetFiles(folder, "*.dll");
        return assemblies.Length > 0 ? Of(folder, assemblies) : throw new FileNotFoundException($"{folder} holds no assembly of the program; install it as a folder of files");
    }

    private static string Of(string folder, IEnumerable<string> files)
    {
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (string file in files.Order(StringComparer.Ordinal))
        {
            hash.AppendData(Encoding.UTF8.GetBytes(Path.GetRelativePath(folder, file).Replace('\\', '/')));
            hash.AppendData(SHA256.HashData(File.ReadAllBytes(file)));
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
