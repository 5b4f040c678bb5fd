namespace RigControl.Cli.Output;

/// <summary>A file that a command was asked to write.</summary>
internal static class OutputFile
{
    /// <exception cref="CliException">It cannot be written; exit code 2.</exception>
    public static FileStream Create(string file)
    {
        try
        {
            return new FileStream(file, FileMode.Create, FileAccess.ReadWrite);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new CliException(ExitCode.BadInput, $"{file} cannot be written: {e.Message}");
        }
    }
}
