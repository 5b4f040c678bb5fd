using Microsoft.Data.Sqlite;
using RigControl.Model.Records;

namespace RigControl.Logbook.Storage;

/// <summary>
/// One connection to a logbook file. Used by one thread at a time; every fault comes out as a <see cref="StorageException"/>.
/// </summary>
internal sealed class Database : IDisposable
{
    /// <summary>How long another writer is waited for, s: a commit on a slow disk takes a tenth of it.</summary>
    public const int BusySeconds = 5;

    private readonly SqliteConnection _connection;

    public string Path { get; }

    private Database(string path)
    {
        Path = path;
        _connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = path,
            // A closed logbook must be closed: it may be copied or unplugged next.
            Pooling = false,
            DefaultTimeout = BusySeconds,
        }.ConnectionString);
    }

    /// <summary>Opens the file, which is made if it does not exist. Nothing is written yet.</summary>
    public static Database Open(string path)
    {
        Database database = new(path);
        try
        {
            database._connection.Open();
            database.Run($"pragma busy_timeout = {BusySeconds * 1000}");
            return database;
        }
        catch (SqliteException fault)
        {
            database.Dispose();
            throw StorageFault.From(fault, path);
        }
        catch
        {
            database.Dispose();
            throw;
        }
    }

    /// <summary>Whether the file system lets nobody write, which SQLite accepts silently when it opens a file.</summary>
    public bool IsReadOnly => SQLitePCL.raw.sqlite3_db_readonly(_connection.Handle, "main") == 1;

    public bool IsInTransaction => SQLitePCL.raw.sqlite3_get_autocommit(_connection.Handle) == 0;

    /// <summary>A statement with parameters $1, $2 and so on, prepared once and run many times.</summary>
    public Statement Prepare(string sql) => new(_connection, Path, sql);

    public void Run(string sql, params ReadOnlySpan<object?> values)
    {
        using Statement statement = Prepare(sql);
        statement.Run(values);
    }

    /// <summary>
    /// Several statements, one after the other, with no semicolon inside any. Given at once, the driver would swallow the
    /// failure of one that follows a statement with a result.
    /// </summary>
    public void RunAll(string statements)
    {
        foreach (string statement in statements.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
            Run(statement);
    }

    /// <summary>The rows of a query. They hold the file's state of their beginning until they are disposed of.</summary>
    public Rows Query(string sql, params ReadOnlySpan<object?> values) => Prepare(sql).Query(values);

    /// <summary>The whole number in the only row and column of a query.</summary>
    public long Number(string sql, params ReadOnlySpan<object?> values)
    {
        using Rows rows = Query(sql, values);
        return rows.Next() ? rows.Number(0) : 0;
    }

    public void Dispose() => _connection.Dispose();
}
