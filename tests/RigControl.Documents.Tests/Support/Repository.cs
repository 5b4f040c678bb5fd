namespace RigControl.Documents.Tests.Support;

/// <summary>The files of the repository that the tests hold to their word.</summary>
internal static class Repository
{
    private static readonly string Root = FindRoot();

    public static string Read(string path) => File.ReadAllText(Path.Combine(Root, path));

    public static IEnumerable<string> Files(string folder, string pattern) =>
        Directory.EnumerateFiles(Path.Combine(Root, folder), pattern).Order().Select(f => Path.GetRelativePath(Root, f));

    private static string FindRoot()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "RigControl.sln")))
                return folder.FullName;
        }
        throw new InvalidOperationException("The tests do not run inside the repository.");
    }
}
