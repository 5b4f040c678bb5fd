using System.CommandLine;
using RigControl.Runtime.Sessions;

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

    public static Option<string?> Pace() => new("--pace") { Description = "real, max or a factor from 0.01 to 1000; simulated rigs only. Default: real.", HelpName = "PACE" };

    /// <exception cref="CliException">The text is no pace.</exception>
    public static Pace PaceOf(string? text) => text is null ? Runtime.Sessions.Pace.Real : Runtime.Sessions.Pace.Parse(text)
        ?? throw new CliException(ExitCode.BadInput, $"--pace {text} is no pace; write real, max or a factor from 0.01 to 1000");

    public static Option<ulong?> Seed() => new("--seed") { Description = "Seed of everything random; simulated rigs only. Default: 1.", HelpName = "N" };

    public static Option<string?> Operator()
    {
        Option<string?> bench = new("--operator")
        {
            Description = "terminal, or scripted, which answers by itself and needs a simulated rig. Default: scripted at another pace than real.", HelpName = "WHO",
        };
        bench.AcceptOnlyFromAmong("terminal", "scripted");
        return bench;
    }

    public static Option<string?> Plugins() => new("--plugins") { Description = "Folder of plugins. Default: the one beside the program.", HelpName = "FOLDER" };
}
