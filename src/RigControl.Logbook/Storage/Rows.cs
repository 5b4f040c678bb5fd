using Microsoft.Data.Sqlite;

namespace RigControl.Logbook.Storage;

/// <summary>The rows of a query, one after the other. Columns count from 0.</summary>
internal sealed class Rows(SqliteDataReader reader, Statement statement, string path) : IDisposable
{
    public bool Next()
    {
        try
        {
            return reader.Read();
        }
        catch (SqliteException fault)
        {
            throw StorageFault.From(fault, path);
        }
    }

    public long Number(int column) => reader.GetInt64(column);

    public double? Real(int column) => reader.IsDBNull(column) ? null : reader.GetDouble(column);

    public string Text(int column) => reader.GetString(column);

    public string? TextOrNull(int column) => reader.IsDBNull(column) ? null : reader.GetString(column);

    public byte[] Bytes(int column) => reader.GetFieldValue<byte[]>(column);

    public void Dispose()
    {
        // A statement that wrote ends here, and what it could not write is told here.
        try
        {
            reader.Dispose();
        }
        catch (SqliteException fault)
        {
            throw StorageFault.From(fault, path);
        }
        finally
        {
            statement.Dispose();
        }
    }
}
