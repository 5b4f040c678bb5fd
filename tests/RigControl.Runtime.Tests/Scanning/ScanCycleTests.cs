using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Scanning;

/// <summary>One tick at a time. The belt's interlock fails at 20 ms, which latches in every state.</summary>
public sealed class ScanCycleTests : IDisposable
{
    private readonly AssembledRig _rig = new TestRig
    {
        Interlocks = { ["belt"] = _ => new ToyInterlock { OnEvaluate = now => now < Ms(20) ? Demand.Proceed(-1, 0, 0, 1, now) : throw new InvalidOperationException() } },
    }.Assemble();

    private readonly List<RigEvent> _heard = [];
    private TimeSpan? _outAt;

    public void Dispose() => _rig.Dispose();

    [Fact]
    public void A_trip_is_told_once_the_stop_output_is_out_with_the_time_it_took()
    {
        ScanCycle cycle = Cycle(4);
        ScanTo(cycle, 20);
        Assert.Empty(Belt);

        _outAt = Ms(24);
        cycle.Scan(Ms(25));
        cycle.Scan(Ms(30));

        Assert.Equal(0.004, (double)Assert.Single(Belt).Data["reaction"], 9);
    }

    [Fact]
    public void A_trip_whose_stop_output_nobody_confirms_is_told_after_a_tenth_of_a_second_and_without_a_reaction()
    {
        ScanCycle cycle = Cycle(4);
        ScanTo(cycle, 115);
        Assert.Empty(Belt);

        cycle.Scan(Ms(120));

        Assert.DoesNotContain("reaction", Assert.Single(Belt).Data.Keys);
    }

    [Fact]
    public void A_trip_that_still_waits_when_the_scan_ends_is_told_then_and_only_once()
    {
        ScanCycle cycle = Cycle(4);
        ScanTo(cycle, 20);
        cycle.TellRest(Ms(30));
        cycle.TellRest(Ms(40));

        Assert.DoesNotContain("reaction", Assert.Single(Belt).Data.Keys);
    }

    [Fact]
    public void An_event_is_urgent_as_long_as_the_recorder_has_room_and_a_scan_without_one_is_not()
    {
        ScanCycle cycle = Cycle(8);
        ScanTo(cycle, 10);
        cycle.HandOn();
        cycle.Scan(Ms(15));
        Assert.False(cycle.IsUrgent);
        Note(cycle);
        Assert.True(cycle.IsUrgent);
        cycle.HandOn();
        Assert.False(cycle.IsUrgent);
        // Two chunks wait and one is in hand: more than a quarter of eight.
        Note(cycle);
        Assert.False(cycle.IsUrgent);
    }

    [Fact]
    public void With_no_empty_chunk_left_a_real_clock_goes_on_and_says_that_the_record_is_lost()
    {
        ScanCycle cycle = Cycle(1);
        ScanTo(cycle, 50);
        Assert.False(cycle.RecordLost);

        cycle.HandOn();
        Assert.True(cycle.RecordLost);
        OutputImage outputs = cycle.Scan(Ms(55));

        Assert.Equal((11, RigState.SafeStop, false), (cycle.ScanNumber, cycle.State, outputs.Power));
    }

    [Fact]
    public void A_full_chunk_is_handed_on_by_itself()
    {
        ChunkQueue queue = new(2, _rig.Devices.Count);
        ScanCycle cycle = new(_rig, new CommandInbox(), new RunWatch(null, null), queue, TimeSpan.Zero);
        ScanTo(cycle, 5 * (RecordChunk.ScanCapacity - 1));
        Assert.Null(queue.Take(TimeSpan.Zero));

        cycle.Scan(Ms(5 * RecordChunk.ScanCapacity));

        Assert.Equal(RecordChunk.ScanCapacity, queue.Take(TimeSpan.Zero)!.ScanCount);
    }

    [Fact]
    public void A_chunk_that_holds_nothing_is_not_handed_on()
    {
        ChunkQueue queue = new(2, _rig.Devices.Count);
        new ScanCycle(_rig, new CommandInbox(), new RunWatch(null, null), queue, TimeSpan.Zero).HandOn();

        Assert.Null(queue.Take(TimeSpan.Zero));
    }

    [Fact]
    public void Every_command_taken_has_its_receipt_in_the_same_scan()
    {
        List<Receipt> receipts = [];
        CommandInbox inbox = new();
        ScanCycle cycle = new(_rig, inbox, new RunWatch(null, (in ScanRecord r) => receipts.AddRange(r.Receipts[..r.ReceiptCount])), new ChunkQueue(2, _rig.Devices.Count), TimeSpan.Zero);
        long arm = inbox.Post(CommandKind.Arm, CommandSource.Network);
        long stop = inbox.Post(CommandKind.Stop, CommandSource.Network);
        cycle.Scan(Ms(5));

        Assert.Equal([stop, arm], receipts.Select(r => r.Command));
        Assert.Equal(RefusalReason.None, receipts[0].Refusal);
        Assert.NotEqual(RefusalReason.None, receipts[1].Refusal);
    }

    private IEnumerable<RigEvent> Belt => _heard.Where(e => e is { Name: EventNames.Trip, Subject: "belt" });

    private static TimeSpan Ms(double ms) => TimeSpan.FromMilliseconds(ms);

    private static void Note(ScanCycle cycle) =>
        cycle.Note(new RigEvent(cycle.Now, cycle.ScanNumber, EventNames.DeviceNote, "", "something", new Dictionary<string, object>()));

    private ScanCycle Cycle(int chunks) =>
        new(_rig, new CommandInbox(), new RunWatch(_heard.Add, null), new ChunkQueue(chunks, _rig.Devices.Count), TimeSpan.Zero) { OutAt = _ => _outAt };

    private static void ScanTo(ScanCycle cycle, int ms)
    {
        for (int now = 5; now <= ms; now += 5)
            cycle.Scan(Ms(now));
    }
}
