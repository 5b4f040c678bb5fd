using System.CommandLine;

namespace RigControl.Cli.Loading;

/// <summary>Options that mean the same in every command that has them.</summary>
internal static class CommonOptions
{
    public static Option<string?> Rig() => new("--rig") { Description = "Rig file. Default: the simulated rig.", HelpName = "FILE" };

    public static Option<string?> Article() => new("--article")
    {
        Description = "Article file. Default: disc-180, on the simulated rig only.", HelpName = "FILE",
    };

    public static Option<string?> Logbook() => new("--logbook")
    {
        Description = "Logbook file. Default: RIGCONTROL_LOGBOOK, else a file in your data folder.", HelpName = "FILE",
    };

    public static Option<bool> Json() => new("--json") { Description = "One JSON document on standard output." };

    public static Option<string?> Plugins() => new("--plugins") { Description = "Folder of plugins. Default: the one beside the program.", HelpName = "FOLDER" };
}
