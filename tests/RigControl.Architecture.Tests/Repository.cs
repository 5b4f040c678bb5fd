namespace RigControl.Architecture.Tests;

/// <summary>The files of this repository, as the tests look at them.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    /// <summary>Path of a file or folder from the root.</summary>
    public static string At(params string[] parts) => Path.Combine([Root, .. parts]);

    /// <summary>Our own C# files below a folder.</summary>
    public static IEnumerable<string> Sources(params string[] folders) => folders
        .SelectMany(f => Directory.EnumerateFiles(At(f), "*.cs", SearchOption.AllDirectories))
        .Where(f => !f.Contains("/obj/", StringComparison.Ordinal) && !f.Contains("/bin/", StringComparison.Ordinal));

    public static IEnumerable<string> Projects(params string[] folders) => folders
        .SelectMany(f => Directory.EnumerateFiles(At(f), "*.csproj", SearchOption.AllDirectories));

    public static string Short(string path) => Path.GetRelativePath(Root, path).Replace('\\', '/');

    // The tests run somewhere below the root.
    private static string FindRoot()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "RigControl.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("the tests run outside the repository");
    }
}
