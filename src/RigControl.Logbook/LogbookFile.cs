using RigControl.Logbook.Storage;
using RigControl.Model.Records;

namespace RigControl.Logbook;

/// <summary>
/// A logbook: one SQLite file with every run. Reading is for one thread at a time; a recorder that was begun has a
/// connection of its own and may live on another thread. Everything that fails throws <see cref="StorageException"/>, and
/// asking for a run that is not there <see cref="UnknownRunException"/>, with a sentence to act on.
/// </summary>
public sealed partial class LogbookFile : IDisposable
{
    /// <summary>The environment variable that names another default logbook.</summary>
    public const string PathVariable = "RIGCONTROL_LOGBOOK";

    private readonly Database _database;

    private LogbookFile(Database database) => _database = database;

    /// <summary>The file, as an absolute path.</summary>
    public string Path => _database.Path;

    /// <summary>Where the logbook lies when nobody says otherwise.</summary>
    /// <param name="overriding">The value of <see cref="PathVariable"/>, or null or empty for the user's data folder.</param>
    public static string DefaultPath(string? overriding)
    {
        if (!string.IsNullOrEmpty(overriding))
            return overriding;
        string folder = Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
        return folder.Length > 0
            ? System.IO.Path.Combine(folder, "rigcontrol", "logbook.sqlite")
            : throw new StorageException($"This user has no data folder for a logbook: name a file with --logbook or {PathVariable}.");
    }

    /// <summary>Opens a logbook; a folder or file that does not exist is made. What is no logbook is left as it is.</summary>
    /// <exception cref="StorageException">A folder, a foreign, newer or damaged file, a place that cannot be written, a full disk.</exception>
    public static LogbookFile Open(string path)
    {
        path = System.IO.Path.GetFullPath(path);
        PreparePlace(path);
        Database database = Database.Open(path);
        try
        {
            Schema.Prepare(database);
            return new LogbookFile(database);
        }
        catch
        {
            database.Dispose();
            throw;
        }
    }

    private static void PreparePlace(string path)
    {
        if (Directory.Exists(path))
            throw new StorageException($"{path} is a folder: name a file in it with --logbook, such as {System.IO.Path.Combine(path, "logbook.sqlite")}.");
        try
        {
            Directory.CreateDirectory(System.IO.Path.GetDirectoryName(path)!);
            FileHead.Check(path);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw StorageFault.NoPlace(path, fault);
        }
    }

    /// <summary>Enters a run and makes it ready to be recorded. The header is safe on the disk when this returns.</summary>
    /// <exception cref="StorageException">The logbook cannot be written, or has a run of this name.</exception>
    /// <exception cref="ArgumentException">The run's name is not of <c>[a-z0-9]</c>.</exception>
    public IRunRecorder Begin(RunHeader header)
    {
        // The name becomes part of a file name.
        if (header.Run.Length == 0 || !header.Run.All(letter => char.IsAsciiLetterLower(letter) || char.IsAsciiDigit(letter)))
            throw new ArgumentException($"'{header.Run}' is no name for a run: small letters and digits only.", nameof(header));
        if (TryFindNumber(header.Run) is not null)
            throw new StorageException($"The logbook {Path} already has a run called {header.Run}: start again, a new run gets a new name.");
        SweepMarks();
        RunMark mark = HoldMark(header.Run);
        Database? database = null;
        try
        {
            database = Database.Open(Path);
            return new RunRecorder(database, mark, RunTables.AddRun(database, header), header);
        }
        catch
        {
            database?.Dispose();
            mark.Dispose();
            throw;
        }
    }

    private RunMark HoldMark(string run)
    {
        try
        {
            return RunMark.Hold(Path, run);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw StorageFault.NoPlace(Path, fault);
        }
    }

    private void SweepMarks()
    {
        using Rows open = _database.Query("select name from run where outcome is null");
        while (open.Next())
            RunMark.Sweep(Path, open.Text(0));
    }

    public void Dispose() => _database.Dispose();
}
