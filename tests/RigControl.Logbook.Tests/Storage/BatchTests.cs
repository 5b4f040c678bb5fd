using RigControl.Logbook.Storage;
using RigControl.Logbook.Tests.Support;

namespace RigControl.Logbook.Tests.Storage;

/// <summary>What is committed together.</summary>
public sealed class BatchTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly Database _database;
    private readonly Batch _batch;

    public BatchTests()
    {
        _database = Database.Open(_folder.Logbook);
        _database.Run("create table word (text text)");
        _batch = new Batch(_database);
    }

    public void Dispose()
    {
        _database.Dispose();
        _folder.Dispose();
    }

    [Fact]
    public void What_is_written_in_a_batch_is_given_up_with_it()
    {
        Write("kept", flushed: false);
        _batch.Close();
        Write("lost", flushed: false);
        _batch.Abandon();
        Assert.Equal(1, Words);
    }

    [Fact]
    public void A_batch_that_must_reach_the_disk_first_commits_one_that_need_not()
    {
        Write("first", flushed: false);
        Write("second", flushed: true);
        _batch.Abandon();
        Assert.Equal(1, Words);
    }

    [Fact]
    public void A_batch_that_must_reach_the_disk_takes_along_what_need_not()
    {
        Write("first", flushed: true);
        Write("second", flushed: false);
        _batch.Abandon();
        Assert.Equal(0, Words);
    }

    [Fact]
    public void Closing_or_abandoning_nothing_does_nothing()
    {
        _batch.Close();
        _batch.Abandon();
        Assert.False(_database.IsInTransaction);
    }

    private long Words => _database.Number("select count(*) from word");

    private void Write(string word, bool flushed)
    {
        _batch.Open(flushed);
        _database.Run("insert into word values ($1)", word);
    }
}
