using Microsoft.Data.Sqlite;
using RigControl.Logbook.Storage;
using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests;

/// <summary>A logbook of an earlier version is brought up when it is opened, with everything in it.</summary>
public sealed class MigrationTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    public static TheoryData<int> EarlierVersions => [.. Enumerable.Range(1, Schema.Version - 1)];

    [Theory]
    [MemberData(nameof(EarlierVersions))]
    public void Every_earlier_version_is_kept_as_a_file_and_opens_with_all_its_runs(int version)
    {
        Take(version);
        Assert.Equal(version, Version());
        using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        Recorded.Check(logbook, "first", 8);
        Recorded.Check(logbook, "stopped", 4);
        Recorded.Check(logbook, "broken", 2);
        Assert.Equal([RunOutcome.Completed, RunOutcome.SafeStop, RunOutcome.BrokenOff], new[] { "first", "stopped", "broken" }.Select(r => logbook.Find(r).Outcome!.Value));
        // A budget that was not kept then cannot be had now.
        Assert.Equal(RunMaker.Figures.Select(f => f with { Budget = [] }), logbook.Figures("first"));
        Assert.True(logbook.Verify().IsSound);
    }

    [Theory]
    [MemberData(nameof(EarlierVersions))]
    public void A_logbook_that_was_brought_up_is_like_a_new_one_and_takes_what_a_new_one_takes(int version)
    {
        Take(version);
        using (LogbookFile logbook = LogbookFile.Open(_folder.Logbook))
        {
            RunMaker.Record(logbook, "next", chunks: 3);
            logbook.Tag("first", "old-belt");
            logbook.Remark("first", new Remark(RemarkKind.Note, DateTimeOffset.UnixEpoch, "school workshop", "", "squeaks", null));
            Assert.Equal("squeaks", logbook.Remarks("first")[^1].Text);
        }

        string fresh = _folder.File("fresh.sqlite");
        LogbookFile.Open(fresh).Dispose();
        Assert.Equal(SchemaOf(fresh), SchemaOf(_folder.Logbook));
        Assert.Equal(Schema.Version, Version());
        Assert.Equal("ok", Recorded.Integrity(_folder.Logbook));
    }

    [Fact]
    public void What_people_added_under_the_second_version_is_there_under_this_one()
    {
        Take(2);
        using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        Assert.Equal(["cold"], logbook.Tags("first"));
        Assert.Equal((RemarkKind.Incident, "smoke", 0.05), Assert.Single(logbook.Remarks("first")) is var r ? (r.Kind, r.Text, r.At!.Value) : default);
        Assert.Equal(("belt", "the longer one"), Assert.Single(logbook.Remarks("stopped")) is var p ? (p.Subject, p.Text) : default);
        Assert.Equal(("/clips/first.mp4", 17, 1.25), Assert.Single(logbook.Attachments("first")) is var a ? (a.Path, a.Bytes, a.Offset!.Value) : default);
    }

    [Fact]
    public void Figures_of_an_earlier_version_stand_beside_new_ones_with_their_budgets()
    {
        Take(2);
        using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        RunMaker.Record(logbook, "next", chunks: 1);
        Assert.Equal(RunMaker.Figures, logbook.Figures("next"));
        ILookup<string, Figure> all = logbook.AllFigures().ToLookup(r => r.Run.Run, r => r.Figure);
        Assert.All(all["first"], f => Assert.Empty(f.Budget));
        Assert.Equal(RunMaker.Figures, all["next"]);
    }

    [Fact]
    public void Two_programs_that_open_an_earlier_logbook_at_once_both_get_it()
    {
        for (int i = 0; i < 5; i++)
        {
            Take(1);
            Parallel.For(0, 4, _ =>
            {
                using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
                Assert.Equal(3, logbook.Runs().Count);
            });
            Assert.Equal(Schema.Version, Version());
        }
    }

    [Fact]
    public void A_step_that_fails_leaves_the_file_at_the_version_it_had()
    {
        Take(1);
        // A table of ours that is there already makes the step fail half way.
        Execute("create table tag (other text)");
        StorageException failure = Assert.Throws<StorageException>(() => LogbookFile.Open(_folder.Logbook));
        Assert.NotEmpty(failure.Message);
        Assert.Equal(1, Version());
        Execute("drop table tag");
        using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        Recorded.Check(logbook, "first", 8);
    }

    private void Take(int version)
    {
        foreach (string old in Directory.GetFiles(_folder.Path))
            File.Delete(old);
        File.Copy(Path.Combine(AppContext.BaseDirectory, "Fixtures", $"version-{version}.sqlite"), _folder.Logbook);
        File.SetAttributes(_folder.Logbook, FileAttributes.Normal);
    }

    private long Version()
    {
        using SqliteConnection connection = Connect(_folder.Logbook);
        using SqliteCommand command = new("pragma user_version", connection);
        return (long)command.ExecuteScalar()!;
    }

    private static List<string> SchemaOf(string path)
    {
        using SqliteConnection connection = Connect(path);
        using SqliteCommand command = new("select type || ' ' || name || ' ' || coalesce(sql, '') from sqlite_schema order by type, name", connection);
        using SqliteDataReader rows = command.ExecuteReader();
        List<string> all = [];
        while (rows.Read())
            all.Add(rows.GetString(0));
        return all;
    }

    private void Execute(string sql)
    {
        using SqliteConnection connection = Connect(_folder.Logbook);
        using SqliteCommand command = new(sql, connection);
        command.ExecuteNonQuery();
    }

    private static SqliteConnection Connect(string path)
    {
        SqliteConnection connection = new($"Data Source={path};Pooling=False");
        connection.Open();
        return connection;
    }
}
