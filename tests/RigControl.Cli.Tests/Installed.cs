using RigControl.Runtime.Plugins;

namespace RigControl.Cli.Tests;

/// <summary>The plugins that the build laid beside the program.</summary>
internal static class Installed
{
    public static string Root { get; } = FindRoot();

    public static PluginCatalog Plugins { get; } = PluginCatalog.Load(Path.Combine(
        Root, "src", "RigControl.Cli", "bin", new DirectoryInfo(AppContext.BaseDirectory).Parent!.Name, "net10.0", "plugins"));

    private static string FindRoot()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "RigControl.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("the tests run outside the repository");
    }
}
