using System.IO.Hashing;

namespace RigControl.Fuzzing;

/// <summary>What has broken a promise once, kept as files: the tests try every one of them for ever after.</summary>
public static class Crashers
{
    public static string Folder { get; } = Path.Combine(Root(), "tests", "RigControl.Fuzzing.Tests", "crashers");

    /// <summary>Writes one; the name says what it is made of, so that the same is kept once.</summary>
    public static string Keep(ITarget target, byte[] input)
    {
        string folder = Path.Combine(Folder, target.Name);
        Directory.CreateDirectory(folder);
        string file = Path.Combine(folder, XxHash3.HashToUInt64(input).ToString("x16", System.Globalization.CultureInfo.InvariantCulture));
        File.WriteAllBytes(file, input);
        return file;
    }

    public static IEnumerable<string> Of(ITarget target) =>
        Directory.Exists(Path.Combine(Folder, target.Name)) ? Directory.EnumerateFiles(Path.Combine(Folder, target.Name)).Order(StringComparer.Ordinal) : [];

    /// <summary>The folder of the repository.</summary>
    public static string Root()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "RigControl.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("this runs outside the repository");
    }
}
