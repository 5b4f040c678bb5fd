using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Recording;

public class RecorderPumpTests
{
    [Fact]
    public void Draining_writes_and_commits_everything_that_was_handed_over()
    {
        MemoryRecorder record = new();
        using RecorderPump pump = new(record, 1);
        for (int i = 1; i <= 500; i++)
            Post(pump, i, withEvent: false);
        pump.Drain();

        Assert.Equal(Enumerable.Range(1, 500).Select(i => (long)i), record.Scans.Select(s => s.Scan));
        Assert.Equal(500, record.Samples[0].Count);
        Assert.Equal(500, record.Safe.Scans);
        Assert.Null(pump.Failure);
    }

    [Fact]
    public void A_chunk_that_holds_an_event_is_committed_before_the_next_one_is_written()
    {
        List<string> did = [];
        MemoryRecorder record = new() { OnAppend = n => did.Add("append " + n), OnCommit = _ => did.Add("commit") };
        using RecorderPump pump = new(record, 1);
        for (int i = 1; i <= 3; i++)
            Post(pump, i, withEvent: true);
        pump.Drain();

        Assert.Equal(["append 1", "commit", "append 2", "commit", "append 3", "commit"], did);
    }

    [Fact]
    public void However_fast_chunks_come_no_more_than_a_few_wait_for_a_commit()
    {
        int appended = 0, most = 0;
        MemoryRecorder record = new() { OnAppend = _ => most = Math.Max(most, ++appended), OnCommit = _ => appended = 0 };
        using RecorderPump pump = new(record, 1, chunks: RecorderPump.ChunksInLockStep);
        for (int i = 1; i <= 500; i++)
            Post(pump, i, withEvent: false);
        pump.Drain();

        Assert.InRange(most, 1, RecorderPump.MostUncommitted);
    }

    [Fact]
    public void An_event_is_told_only_once_it_is_committed()
    {
        List<string> did = [];
        MemoryRecorder record = new() { OnAppend = n => did.Add("append " + n), OnCommit = _ => did.Add("commit") };
        using RecorderPump pump = new(record, 1, happened => did.Add("told at " + happened.Scan));
        for (int i = 1; i <= 2; i++)
            Post(pump, i, withEvent: true);
        pump.Drain();

        Assert.Equal(["append 1", "commit", "told at 1", "append 2", "commit", "told at 2"], did);
    }

    [Fact]
    public void An_event_is_told_even_where_the_record_can_no_longer_be_kept()
    {
        int told = 0;
        MemoryRecorder record = new() { OnAppend = _ => throw new StorageException("the disk is full") };
        using RecorderPump pump = new(record, 1, _ => told++);
        for (int i = 1; i <= 3; i++)
            Post(pump, i, withEvent: true);
        Assert.Throws<StorageException>(pump.Drain);

        Assert.Equal(3, told);
    }

    [Fact]
    public void After_a_failure_chunks_are_passed_on_unwritten_so_that_the_scan_never_waits_for_the_disk()
    {
        int tried = 0;
        MemoryRecorder record = new()
        {
            OnAppend = _ =>
            {
                tried++;
                throw new StorageException("the disk is full");
            },
        };
        using RecorderPump pump = new(record, 1);
        for (int i = 1; i <= RecorderPump.Chunks * 3; i++)
            Post(pump, i, withEvent: false);

        Assert.Equal("the disk is full", Assert.Throws<StorageException>(pump.Drain).Message);
        Assert.Equal(1, tried);
        Assert.Empty(record.Scans);
    }

    [Fact]
    public void A_commit_that_fails_at_the_very_end_is_not_kept_quiet()
    {
        MemoryRecorder record = new() { OnCommit = _ => throw new StorageException("the disk is gone") };
        using RecorderPump pump = new(record, 1);
        Post(pump, 1, withEvent: false);

        Assert.Throws<StorageException>(pump.Drain);
    }

    [Fact]
    public void A_pump_that_was_given_nothing_commits_nothing()
    {
        int commits = 0;
        using RecorderPump pump = new(new MemoryRecorder { OnCommit = n => commits = n }, 1);
        pump.Drain();

        Assert.Equal(0, commits);
    }

    private static void Post(RecorderPump pump, int scan, bool withEvent)
    {
        RecordChunk chunk = pump.Queue.Rent(Timeout.InfiniteTimeSpan)!;
        chunk.Scans[chunk.ScanCount++] = new ScanRecord { Scan = scan };
        chunk.Devices[0].Add(new Sample(0, Quality.Good, TimeSpan.FromSeconds(scan), scan));
        if (withEvent)
            chunk.Events.Add(new RigEvent(TimeSpan.Zero, scan, EventNames.Trip, "", "", new Dictionary<string, object>()));
        pump.Queue.Post(chunk);
    }
}
