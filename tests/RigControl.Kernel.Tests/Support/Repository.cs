namespace RigControl.Kernel.Tests.Support;

/// <summary>Where the files are that tests hold equal to the code.</summary>
internal static class Repository
{
    /// <summary>The first folder above the tests' own that holds the solution.</summary>
    public static string Root { get; } = Find(AppContext.BaseDirectory);

    private static string Find(string folder)
    {
        while (!File.Exists(Path.Combine(folder, "RigControl.sln")))
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("run the tests from a checkout");
        return folder;
    }
}
