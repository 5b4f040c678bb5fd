namespace RigControl.Logbook.Storage;

/// <summary>
/// What each version of the tables has beyond the one before. A new logbook goes through all of them, so that it cannot
/// differ from one that was brought up. Each step is one transaction: a killed program leaves the file at a whole version.
/// </summary>
internal static class Migrations
{
    // The step at place n leads from version n + 1 to n + 2.
    private static readonly string[] Steps =
    [
        """
        alter table run add column pruned_at text;
        create index run_by_article on run (article);

        create table remark (
            id integer primary key,
            run integer not null references run (id),
            kind text not null,
            written_at text not null,
            author text not null,
            subject text not null,
            text text not null,
            at real
        ) strict;
        create index remark_by_run on remark (run);

        create table tag (
            run integer not null references run (id),
            tag text not null,
            primary key (tag, run)
        ) strict, without rowid;
        create index tag_by_run on tag (run);

        create table attachment (
            id integer primary key,
            run integer not null references run (id),
            path text not null,
            digest text not null,
            bytes integer not null,
            attached_at text not null,
            "offset" real,
            unique (run, path)
        ) strict;
        """,

        // Figures of earlier versions have none: what was not kept cannot be made up.
        "alter table figure add column budget text",
    ];

    /// <summary>Brings a logbook of this or an earlier version up to <see cref="Schema.Version"/>.</summary>
    public static void Apply(Database database)
    {
        while (Version(database) < Schema.Version)
            Step(database);
    }

    private static void Step(Database database)
    {
        database.Run("begin immediate");
        try
        {
            // Another program may have done it while this one waited.
            long version = Version(database);
            if (version < Schema.Version)
            {
                database.RunAll(Steps[version - 1]);
                database.Run($"pragma user_version = {version + 1}");
            }

            database.Run("commit");
        }
        catch
        {
            if (database.IsInTransaction)
                database.Run("rollback");
            throw;
        }
    }

    private static long Version(Database database) => database.Number("pragma user_version");
}
