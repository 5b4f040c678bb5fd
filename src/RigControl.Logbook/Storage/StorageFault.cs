using Microsoft.Data.Sqlite;
using RigControl.Model.Records;

namespace RigControl.Logbook.Storage;

/// <summary>Turns what the database or the file system reports into a sentence to act on.</summary>
internal static class StorageFault
{
    // Primary result codes of SQLite, https://www.sqlite.org/rescode.html.
    private const int Permission = 3;
    private const int Busy = 5;
    private const int Locked = 6;
    private const int ReadOnly = 8;
    private const int Corrupt = 11;
    private const int Full = 13;
    private const int CannotOpen = 14;
    private const int Protocol = 15;
    private const int NotADatabase = 26;

    public static StorageException From(SqliteException fault, string path) => new(Sentence(fault, path), fault);

    public static StorageException Damaged(string path, Exception cause) =>
        new($"The logbook {path} is damaged ({cause.Message}): keep a copy of it as it is and name another with --logbook.", cause);

    public static StorageException Foreign(string path) =>
        new($"{path} is not a logbook of this program; it was left as it is. Name another file with --logbook.");

    public static StorageException Newer(string path, long format) => new(
        $"The logbook {path} was written by a newer version of this program (format {format}, this one reads {Schema.Version}): "
        + "update the program, or name another logbook with --logbook.");

    public static StorageException UnsafePlace(string path) =>
        new($"The logbook {path} lies where it cannot be kept safe against a crash: name a place on a local disk with --logbook.");

    public static StorageException NoPlace(string path, Exception cause) =>
        new($"The logbook {path} cannot be made or written there ({cause.Message.TrimEnd('.')}): name a place that can be written with --logbook.", cause);

    public static StorageException ReadOnlyPlace(string path) =>
        new($"The logbook {path} cannot be written: allow writing to it and its folder, or copy it to a place that can be written.");

    private static string Sentence(SqliteException fault, string path) => fault.SqliteErrorCode switch
    {
        Full => $"The disk with the logbook {path} is full: free some space on it or name another place with --logbook.",
        ReadOnly or Permission => ReadOnlyPlace(path).Message,
        CannotOpen => $"The logbook {path} cannot be opened: see that its folder exists and can be written, or name another place with --logbook.",
        // The last is what the log's locks say of the same.
        Busy or Locked or Protocol => $"Another program has kept the logbook {path} busy for {Database.BusySeconds} s: close it, or name another logbook with --logbook.",
        Corrupt => Damaged(path, fault).Message,
        NotADatabase => Foreign(path).Message,
        _ => $"The logbook {path} could not be read or written ({fault.Message.TrimEnd('.')}): check the disk it lies on, or name another with --logbook.",
    };
}
