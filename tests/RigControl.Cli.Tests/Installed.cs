using RigControl.Runtime.Plugins;

namespace RigControl.Cli.Tests;

/// <summary>The plugins that the build laid beside the program.</summary>
internal static class Installed
{
    public static string Root { get; } = FindRoot();

    public static PluginCatalog Plugins { get; } = PluginCatalog.Load(Path.Combine(
        Root, "src", "RigControl.Cli", "bin", new DirectoryInfo(AppContext.BaseDirectory).Parent!.Name, "net10.0", "plugins"));

    /// <summary>A file that comes with the program.</summary>
    public static string Sample(string name) => Path.Combine(Root, "procedures", name);

    private static string FindRoot()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "RigControl.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("the tests run outside the repository");
    }
}
