namespace RigControl.Runtime.Tests.Recording;

public class ChunkQueueTests
{
    private readonly ChunkQueue _queue = new(3, 2);

    [Fact]
    public void There_are_no_more_chunks_than_were_made()
    {
        RecordChunk?[] rented = [Rent(), Rent(), Rent()];

        Assert.Equal(3, rented.Distinct().Count());
        Assert.Null(Rent());
        Assert.Equal(1, _queue.Backlog, 12);
    }

    [Fact]
    public void Chunks_come_out_in_the_order_in_which_they_were_handed_over()
    {
        RecordChunk first = Rent()!;
        RecordChunk second = Rent()!;
        _queue.Post(first);
        _queue.Post(second);

        Assert.Same(first, Take());
        Assert.Same(second, Take());
        Assert.Null(Take());
    }

    [Fact]
    public void A_returned_chunk_is_empty_and_may_be_used_again()
    {
        RecordChunk chunk = Rent()!;
        chunk.ScanCount = 5;
        chunk.Devices[1].Add(new Sample(0, Quality.Good, TimeSpan.Zero, 1));
        chunk.Events.Add(new RigEvent(TimeSpan.Zero, 1, EventNames.Trip, "", "", new Dictionary<string, object>()));
        Assert.False(chunk.IsEmpty);

        _queue.Return(chunk);

        Assert.Same(chunk, Rent());
        Assert.True(chunk.IsEmpty);
    }

    [Fact]
    public void The_backlog_is_the_share_of_chunks_that_are_not_free()
    {
        RecordChunk chunk = Rent()!;
        Assert.Equal(1.0 / 3, _queue.Backlog, 12);
        _queue.Return(chunk);
        Assert.Equal(0, _queue.Backlog, 12);
    }

    [Fact]
    public void A_closed_queue_gives_out_what_is_left_and_is_done_then()
    {
        _queue.Post(Rent()!);
        _queue.Close();

        Assert.False(_queue.IsDone);
        Assert.NotNull(Take());
        Assert.True(_queue.IsDone);
        Assert.Null(Take());
    }

    [Fact]
    public void Closing_wakes_a_recorder_that_waits()
    {
        RecordChunk? taken = new(1);
        Thread recorder = new(() => taken = _queue.Take(Timeout.InfiniteTimeSpan));
        recorder.Start();
        _queue.Close();
        recorder.Join();

        Assert.Null(taken);
    }

    private RecordChunk? Rent() => _queue.Rent(TimeSpan.Zero);

    private RecordChunk? Take() => _queue.Take(TimeSpan.Zero);
}
