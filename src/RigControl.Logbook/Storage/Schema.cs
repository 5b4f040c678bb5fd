namespace RigControl.Logbook.Storage;

/// <summary>
/// The tables of a logbook and their version, which stands in the file's <c>user_version</c>. Times since the session's
/// clock started and scan times are ticks of 100 ns; wall-clock times are text in UTC, so that they sort.
/// </summary>
internal static class Schema
{
    /// <summary>Marks a SQLite file as a logbook: "RigL" in ASCII.</summary>
    public const int ApplicationId = 0x5269674C;

    public const int Version = 3;

    /// <summary>Bytes. A few blocks fit in a page; in SQLite's own 4096 a block of scans would leave half of it empty.</summary>
    private const int PageSize = 8192;

    /// <summary>The tables of version 1. Never changed: what later versions have besides is in <see cref="Migrations"/>.</summary>
    private const string FirstTables = """
        create table run (
            id integer primary key,
            name text not null unique,
            started_at text not null,
            procedure text not null,
            article text not null,
            rig text not null,
            simulated integer not null,
            header text not null,
            outcome text,
            ended_at text,
            note text
        ) strict;
        create index run_by_start on run (started_at);

        create table scan_block (
            id integer primary key,
            run integer not null references run (id),
            first_scan integer not null,
            count integer not null,
            first_now integer not null,
            data blob not null
        ) strict;
        create index scan_block_by_run on scan_block (run, first_scan);

        create table sample_block (
            id integer primary key,
            run integer not null references run (id),
            device integer not null,
            first integer not null,
            count integer not null,
            first_at integer not null,
            last_at integer not null,
            data blob not null
        ) strict;
        create index sample_block_by_run on sample_block (run, device, first);

        create table event (
            id integer primary key,
            run integer not null references run (id),
            at integer not null,
            scan integer not null,
            name text not null,
            subject text not null,
            text text not null,
            data text not null
        ) strict;
        create index event_by_run on event (run);

        create table figure (
            id integer primary key,
            run integer not null references run (id),
            name text not null,
            value real,
            unit text not null,
            standard_uncertainty real,
            low real,
            high real,
            repeat integer not null,
            method text not null,
            note text
        ) strict;
        create index figure_by_run on figure (run);
        create index figure_by_name on figure (name);
        """;

    /// <summary>
    /// Makes the tables in an empty file, or sees that the file is a logbook this program can read and brings an earlier
    /// version up to this one. A file that is neither is refused before anything is written to it.
    /// </summary>
    public static void Prepare(Database database)
    {
        if (IsEmpty(database))
            Create(database);
        Check(database);
        Migrations.Apply(database);
        // Readers never wait for the writer, and a killed writer loses no more than the transaction it was in.
        using Rows mode = database.Query("pragma journal_mode = wal");
        if (!mode.Next() || mode.Text(0) != "wal")
            throw StorageFault.UnsafePlace(database.Path);
    }

    private static bool IsEmpty(Database database) =>
        database.Number("pragma application_id") == 0 && database.Number("select count(*) from sqlite_schema") == 0;

    private static void Create(Database database)
    {
        if (database.IsReadOnly)
            throw StorageFault.ReadOnlyPlace(database.Path);
        database.Run($"pragma page_size = {PageSize}");
        database.Run("begin immediate");
        // Another program may have made the tables while this one waited.
        if (IsEmpty(database))
        {
            database.RunAll(FirstTables);
            database.Run($"pragma application_id = {ApplicationId}");
            database.Run("pragma user_version = 1");
        }
        database.Run("commit");
    }

    private static void Check(Database database)
    {
        if (database.Number("pragma application_id") != ApplicationId)
            throw StorageFault.Foreign(database.Path);
        long version = database.Number("pragma user_version");
        if (version > Version)
            throw StorageFault.Newer(database.Path, version);
        if (version < 1)
            throw StorageFault.Damaged(database.Path, new InvalidDataException($"it has no format {version}"));
        if (database.IsReadOnly)
            throw StorageFault.ReadOnlyPlace(database.Path);
    }
}
