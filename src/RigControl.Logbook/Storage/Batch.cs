namespace RigControl.Logbook.Storage;

/// <summary>
/// A transaction that stays open from chunk to chunk. One that must reach the disk is opened flushed: its end waits for the
/// disk and takes with it whatever was committed before, since the journal is written in order.
/// </summary>
internal sealed class Batch(Database database)
{
    private bool _open;

    /// <summary>How the connection ends its transactions; null before it was told.</summary>
    private bool? _flushed;

    /// <summary>Opens a transaction, or leaves the open one if it is flushed enough.</summary>
    public void Open(bool flushed)
    {
        if (_open && (_flushed == true || !flushed))
            return;
        Close();
        if (_flushed != flushed)
            database.Run(flushed ? "pragma synchronous = full" : "pragma synchronous = normal");
        _flushed = flushed;
        database.Run("begin immediate");
        _open = true;
    }

    public void Close()
    {
        if (!_open)
            return;
        database.Run("commit");
        _open = false;
    }

    /// <summary>Gives up what is not committed. The database may have done so by itself when it failed.</summary>
    public void Abandon()
    {
        if (_open && database.IsInTransaction)
            database.Run("rollback");
        _open = false;
    }
}
