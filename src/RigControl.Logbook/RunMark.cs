namespace RigControl.Logbook;

/// <summary>
/// Says that a run is being recorded: an empty file beside the logbook, held open by the recorder and locked against all
/// others. The system lets go of it when the process dies, however it dies, so a run without an end whose mark is free
/// has broken off.
/// </summary>
internal sealed class RunMark : IDisposable
{
    private readonly FileStream _file;

    private RunMark(FileStream file) => _file = file;

    /// <exception cref="IOException">The mark cannot be made.</exception>
    public static RunMark Hold(string logbook, string run) =>
        new(new FileStream(
            PathOf(logbook, run), FileMode.Create, FileAccess.ReadWrite, FileShare.None, bufferSize: 1, FileOptions.DeleteOnClose));

    /// <summary>Whether a living recorder holds the run. What cannot be found out counts as held: nobody may call it broken off.</summary>
    public static bool IsHeld(string logbook, string run)
    {
        try
        {
            // A shared lock, so that two who look do not take each other for the recorder.
            using FileStream look = new(PathOf(logbook, run), FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 1);
            return false;
        }
        catch (Exception fault) when (fault is FileNotFoundException or DirectoryNotFoundException)
        {
            return false;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return true;
        }
    }

    /// <summary>Takes away the mark that a killed recorder left behind.</summary>
    public static void Sweep(string logbook, string run)
    {
        if (IsHeld(logbook, run))
            return;
        try
        {
            File.Delete(PathOf(logbook, run));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            // It is only litter.
        }
    }

    public void Dispose() => _file.Dispose();

    private static string PathOf(string logbook, string run) => $"{logbook}-run-{run}";
}
