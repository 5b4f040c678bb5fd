namespace RigControl.Mutants;

/// <summary>The checkout that the program runs in. It is read, and nothing in it is changed but the page of evidence.</summary>
public static class Checkout
{
    /// <summary>The first folder above the program's own that holds the solution.</summary>
    public static string Root { get; } = Find(AppContext.BaseDirectory);

    /// <summary>How the program was built, Release or Debug; the test projects are taken as they were built in the same way.</summary>
    public static string Build { get; } = Path.GetFileName(Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(AppContext.BaseDirectory)))!;

    /// <summary>Path of a file or folder, from the root.</summary>
    public static string At(params string[] parts) => Path.Combine([Root, .. parts]);

    /// <summary>Text of a file, from the root.</summary>
    public static string Read(string file) => File.ReadAllText(At(file));

    /// <summary>Where a project's build lies.</summary>
    /// <param name="project">Its folder, from the root.</param>
    public static string OutputOf(string project) => At(project, "bin", Build, "net10.0");

    /// <summary>Copies a folder with all that is in it.</summary>
    public static void Copy(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (string folder in Directory.EnumerateDirectories(from, "*", SearchOption.AllDirectories))
            Directory.CreateDirectory(Path.Combine(to, Path.GetRelativePath(from, folder)));
        foreach (string file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
            File.Copy(file, Path.Combine(to, Path.GetRelativePath(from, file)), overwrite: true);
    }

    private static string Find(string folder)
    {
        while (!File.Exists(Path.Combine(folder, "RigControl.sln")))
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("run this from a checkout");
        return folder;
    }
}
