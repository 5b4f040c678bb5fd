using Microsoft.Data.Sqlite;
using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests;

/// <summary>Verify, backup and prune.</summary>
public sealed class UpkeepTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_sound_logbook_is_said_to_be_sound_with_everything_read()
    {
        using LogbookFile logbook = Filled();
        Soundness found = logbook.Verify();
        Assert.True(found.IsSound, string.Join('\n', found.Damage));
        Assert.Equal((3, 15L * RunMaker.ScansPerChunk, 15L * RunMaker.ScansPerChunk * RunMaker.SamplesPerScan), (found.Runs, found.Scans, found.Samples));
        Assert.Contains(found.Notes, n => n.Contains("run c has no end", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("delete from sample_block where id = 3", "run a")]
    [InlineData("delete from scan_block where id = 3", "run a")]
    [InlineData("update sample_block set first = first + 1 where id = 3", "run a")]
    [InlineData("update scan_block set data = x'00' where id = 2", "run a")]
    [InlineData("update run set header = '{' where name = 'b'", "run b")]
    [InlineData("update run set outcome = 'splendid' where name = 'b'", "list of runs")]
    [InlineData("pragma foreign_keys = off; update event set run = 99 where run = 1", "the file")]
    public void What_is_missing_doubled_or_unreadable_is_found_with_its_run(string damage, string where)
    {
        Filled().Dispose();
        Execute(damage);
        using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        Soundness found = logbook.Verify();
        Assert.Contains(found.Damage, d => d.StartsWith(where, StringComparison.Ordinal) || d.Contains(where, StringComparison.Ordinal));
    }

    [Fact]
    public void Damage_in_one_run_does_not_hide_the_others()
    {
        Filled().Dispose();
        Execute("update run set header = '{' where name = 'a'");
        using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        Soundness found = logbook.Verify();
        Assert.Single(found.Damage);
        Assert.Equal(7L * RunMaker.ScansPerChunk, found.Scans);
    }

    [Fact]
    public void A_backup_made_while_a_run_is_recorded_holds_every_committed_chunk_and_is_sound()
    {
        using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        string copy = _folder.File("copy.sqlite");
        using (IRunRecorder recorder = logbook.Begin(RunMaker.Header("a")))
        {
            RunMaker.Append(recorder, 0, 5);
            long size = logbook.Backup(copy);
            Assert.Equal(size, new FileInfo(copy).Length);
            RunMaker.Append(recorder, 5, 5);
            recorder.Finish(RunMaker.End(RunOutcome.Completed), []);
        }

        Recorded.Check(logbook, "a", 10);
        using LogbookFile kept = LogbookFile.Open(copy);
        Recorded.Check(kept, "a", 5);
        Assert.True(kept.Verify().IsSound);
        Assert.DoesNotContain(Directory.GetFiles(_folder.Path), f => f.EndsWith(".part", StringComparison.Ordinal));
    }

    [Fact]
    public void A_backup_never_overwrites_a_file()
    {
        using LogbookFile logbook = Filled();
        string copy = _folder.File("copy.sqlite");
        File.WriteAllText(copy, "mine");
        Assert.Contains("left as it is", Assert.Throws<StorageException>(() => logbook.Backup(copy)).Message, StringComparison.Ordinal);
        Assert.Equal("mine", File.ReadAllText(copy));
        Assert.Throws<StorageException>(() => logbook.Backup(_folder.Logbook));
    }

    [Fact]
    public void Pruning_takes_samples_and_scans_and_keeps_everything_else()
    {
        using LogbookFile logbook = Filled();
        logbook.Tag("a", "kept");
        DateTimeOffset now = new(2031, 6, 1, 0, 0, 0, TimeSpan.Zero);
        Assert.True(logbook.BlockBytes("a") > 0);
        Assert.Equal(["a"], logbook.Prune(["a", "c"], now));
        Assert.Equal(0, logbook.BlockBytes("a"));
        Assert.Empty(logbook.Samples("a", 0));
        Assert.Equal(RunMaker.Figures, logbook.Figures("a"));
        Assert.Equal(2, logbook.Events("a").Count);
        Assert.Equal(["kept"], logbook.Tags("a"));
        Assert.Equal(now, logbook.PrunedAt("a"));
        Recorded.Check(logbook, "b", 4);
        Recorded.Check(logbook, "c", 3);
        Assert.Empty(logbook.Prune(["a"], now));
        Assert.True(logbook.Verify().IsSound);
    }

    // Chunks of 20 ms; the trip is in the middle of 40 s.
    [Fact]
    public void Pruning_keeps_everything_of_the_seconds_around_a_trip()
    {
        using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        RunMaker.Record(logbook, "quiet", chunks: 2000);
        using (IRunRecorder recorder = logbook.Begin(RunMaker.Header("tripped")))
        {
            RunMaker.Append(recorder, 0, 2000);
            RecordChunk trip = new(RunMaker.Devices);
            trip.Events.Add(new RigEvent(TimeSpan.FromSeconds(20), 20_000, EventNames.Trip, "lid-closed", "the lid is open", new Dictionary<string, object> { ["channel"] = "enclosure.lid" }));
            recorder.Append(trip);
            recorder.Finish(new RunEnd(RunOutcome.SafeStop, DateTimeOffset.UnixEpoch, "stopped"), []);
        }

        logbook.Prune(["quiet", "tripped"], DateTimeOffset.UnixEpoch);

        Assert.Equal(0, logbook.BlockBytes("quiet"));
        double[] scans = [.. Times(logbook.Scans("tripped"))];
        double[] samples = [.. logbook.Samples("tripped", 0).Select(s => s.At.TotalSeconds)];
        foreach (double[] kept in (double[][])[scans, samples])
        {
            // Blocks are kept whole: what is kept begins at most one block early, and nothing of it is missing.
            Assert.InRange(kept.Min(), 10, 15);
            Assert.InRange(kept.Max(), 25, 30);
            Assert.All(kept.Zip(kept.Skip(1)), pair => Assert.InRange(pair.Second - pair.First, 0, 0.0011));
        }

        Assert.True(logbook.Verify().IsSound);
        Assert.Contains("run tripped was pruned: beside the seconds around a trip its figures are all there is", logbook.Verify().Notes);
    }

    private static List<double> Times(ScanSequence scans)
    {
        List<double> times = [];
        foreach (ref readonly ScanRecord scan in scans)
            times.Add(scan.Now.TotalSeconds);
        return times;
    }

    [Fact]
    public void Shrinking_gives_the_space_back()
    {
        using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        RunMaker.Record(logbook, "a", chunks: 1500);
        RunMaker.Record(logbook, "b", chunks: 4);
        logbook.Prune(["a"], DateTimeOffset.UnixEpoch);
        long before = new FileInfo(_folder.Logbook).Length;
        logbook.Shrink();
        Assert.True(new FileInfo(_folder.Logbook).Length < before / 2, $"{new FileInfo(_folder.Logbook).Length} of {before} bytes");
        Recorded.Check(logbook, "b", 4);
    }

    [Fact]
    public void An_unknown_run_prunes_nothing()
    {
        using LogbookFile logbook = Filled();
        Assert.Throws<UnknownRunException>(() => logbook.Prune(["a", "nobody"], DateTimeOffset.UnixEpoch));
        Recorded.Check(logbook, "a", 8);
    }

    private LogbookFile Filled()
    {
        LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        RunMaker.Record(logbook, "a", chunks: 8);
        RunMaker.Record(logbook, "b", chunks: 4);
        using (IRunRecorder recorder = logbook.Begin(RunMaker.Header("c")))
            RunMaker.Append(recorder, 0, 3);
        return logbook;
    }

    private void Execute(string sql)
    {
        using SqliteConnection connection = new($"Data Source={_folder.Logbook};Pooling=False");
        connection.Open();
        using SqliteCommand command = new(sql, connection);
        command.ExecuteNonQuery();
    }
}
