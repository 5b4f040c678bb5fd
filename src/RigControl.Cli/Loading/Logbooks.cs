using RigControl.Logbook;

namespace RigControl.Cli.Loading;

/// <summary>Which logbook is meant when none is named.</summary>
internal static class Logbooks
{
    public static string DefaultPath => LogbookFile.DefaultPath(Environment.GetEnvironmentVariable(LogbookFile.PathVariable));
}
