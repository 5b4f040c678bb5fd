using System.Globalization;
using Microsoft.Data.Sqlite;

namespace RigControl.Logbook.Storage;

/// <summary>A prepared statement whose parameters are called $1, $2 and so on.</summary>
internal sealed class Statement(SqliteConnection connection, string path, string sql) : IDisposable
{
    private readonly SqliteCommand _command = new(sql, connection);

    public void Run(params ReadOnlySpan<object?> values)
    {
        try
        {
            Bind(values);
            _command.ExecuteNonQuery();
        }
        catch (SqliteException fault)
        {
            throw StorageFault.From(fault, path);
        }
    }

    /// <summary>Starts a query; disposing of the rows disposes of this statement too.</summary>
    public Rows Query(ReadOnlySpan<object?> values)
    {
        try
        {
            Bind(values);
            return new Rows(_command.ExecuteReader(), this, path);
        }
        catch (SqliteException fault)
        {
            Dispose();
            throw StorageFault.From(fault, path);
        }
    }

    private void Bind(ReadOnlySpan<object?> values)
    {
        while (_command.Parameters.Count < values.Length)
            _command.Parameters.Add(new SqliteParameter { ParameterName = string.Create(CultureInfo.InvariantCulture, $"${_command.Parameters.Count + 1}") });
        for (int i = 0; i < values.Length; i++)
            _command.Parameters[i].Value = values[i] ?? DBNull.Value;
    }

    public void Dispose() => _command.Dispose();
}
