namespace RigControl.Cli.Asking;

/// <summary>Where a new file goes. Nothing that is there already is written over unasked.</summary>
internal static class NewFile
{
    public const string StandardOutput = "-";

    /// <summary>Fails before the first question rather than after the last where nothing can be written.</summary>
    /// <exception cref="CliException">The folder is not there or takes no file.</exception>
    public static void RequireFolder(string path)
    {
        if (path == StandardOutput)
            return;
        string folder = Path.GetDirectoryName(Path.GetFullPath(path)) ?? path;
        if (!Directory.Exists(folder))
            throw new CliException(ExitCode.BadInput, $"there is no folder {folder}; make it first, or name another file");
        if (Directory.Exists(path))
            throw new CliException(ExitCode.BadInput, $"{path} is a folder; name a file in it");
        try
        {
            string trial = Path.Combine(folder, $".rigcontrol-{Guid.NewGuid():N}");
            using FileStream made = new(trial, FileMode.CreateNew, FileAccess.Write, FileShare.None, 1, FileOptions.DeleteOnClose);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new CliException(ExitCode.BadInput, $"no file can be written into {folder}: {e.Message}; name a file in another folder");
        }
    }

    /// <exception cref="CliException">With the whole text, so that no answer is lost with it.</exception>
    public static void Write(string path, string text)
    {
        try
        {
            if (path == StandardOutput)
                Console.Out.Write(text);
            else
                File.WriteAllText(path, text);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new CliException(ExitCode.BadInput, $"{path} cannot be written: {e.Message}; what you answered stands here", text);
        }
    }
}
