using System.Text;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Telemetry.Payloads;
using RigControl.Telemetry.Sampling;
using RigControl.Telemetry.Tests.Support;

namespace RigControl.Telemetry.Tests.Sampling;

/// <summary>Samples are thinned for display to lowest and highest, and the scan pays nothing for it.</summary>
public class ThinnerTests
{
    [Fact]
    public void A_spike_of_a_single_scan_is_still_in_the_block()
    {
        (Thinner thinner, Toy toy) = Make();
        toy.Ticks(30, value: 10);
        toy.Tick(value: 9999);
        toy.Ticks(40, value: 10);
        Block[] blocks = Drain(thinner);
        Assert.Contains(blocks, b => b.Highest(0).ToArray().Max() == 9999 && b.Lowest(0).ToArray().Min() == 10);
    }

    [Fact]
    public void About_ten_blocks_a_second_come_whatever_the_scan_s_rate()
    {
        foreach (double period in new[] { 0.001, 0.005, 0.02, 0.1 })
        {
            (Thinner thinner, Toy toy) = Make(period, waiting: 64);
            toy.Ticks((int)(2 / period));
            Assert.InRange(Drain(thinner).Length, 9, 21);
        }
    }

    [Fact]
    public void Blocks_stand_side_by_side_and_are_numbered_without_gaps()
    {
        (Thinner thinner, Toy toy) = Make();
        toy.Ticks(500);
        Block[] blocks = Drain(thinner);
        for (int i = 1; i < blocks.Length; i++)
        {
            Assert.Equal(blocks[i - 1].Sequence + 1, blocks[i].Sequence);
            Assert.Equal(blocks[i - 1].Start + blocks[i - 1].SlotTime * blocks[i - 1].Slots, blocks[i].Start);
        }
    }

    [Fact]
    public void A_reading_that_cannot_be_used_is_null_and_its_quality_is_told()
    {
        (Thinner thinner, Toy toy) = Make();
        for (int i = 0; i < 45; i++)
            toy.Tick(quality: Quality.Bad, value: double.NaN);
        Block block = Drain(thinner)[0];
        Assert.Equal(Quality.Bad, block.QualityOf(0));
        Assert.All(block.Lowest(0).ToArray(), v => Assert.True(double.IsNaN(v)));
        string payload = Encoding.UTF8.GetString(new DataPayload(Toy.Header().Channels, ["lid-closed", "over-speed"], "r1").Of(block, 1).Span);
        Assert.True(Schemas.Accepts("data", payload), payload);
        Assert.DoesNotContain("NaN", payload, StringComparison.Ordinal);
        Assert.Contains("\"rotor.speed\":\"Bad\"", payload, StringComparison.Ordinal);
    }

    [Fact]
    public void A_slot_without_a_scan_is_never_called_good()
    {
        (Thinner thinner, Toy toy) = Make();
        toy.Ticks(5);
        Toy later = Later(toy, thinner);
        later.Ticks(60);
        Assert.Contains(Drain(thinner), b => b.QualityOf(0) == Quality.Uncertain && b.Lowest(0).Contains(double.NaN));
    }

    [Fact]
    public void The_interlock_with_the_least_room_is_told_and_one_that_objects_comes_first()
    {
        Block block = new(1, 1);
        block.Begin(1, TimeSpan.Zero, TimeSpan.FromSeconds(1));
        block.Take(0, Demand.Proceed(0, 1, 2, 0.5, TimeSpan.Zero));
        block.Take(1, Demand.Proceed(0, 1, 2, 0.1, TimeSpan.Zero));
        block.Take(2, Demand.Proceed(0, 1, 2, 0.9, TimeSpan.Zero));
        Assert.Equal(1, block.Tightest);
        block.Take(3, Demand.Object(DemandAction.StopOutput, 1, 0, 1, 2, 0.8, TimeSpan.Zero));
        block.Take(4, Demand.Proceed(0, 1, 2, 0, TimeSpan.Zero));
        Assert.Equal(3, block.Tightest);
    }

    [Fact]
    public void A_payload_is_as_its_schema_says_and_has_no_digits_that_nobody_measured()
    {
        (Thinner thinner, Toy toy) = Make();
        toy.Ticks(45, value: 0.1 * 309);
        string payload = Encoding.UTF8.GetString(new DataPayload(Toy.Header().Channels, ["lid-closed", "over-speed"], "r1").Of(Drain(thinner)[0], 1).Span);
        Assert.True(Schemas.Accepts("data", payload), payload);
        Assert.Contains("30.9,", payload, StringComparison.Ordinal);
        Assert.DoesNotContain("30.90", payload, StringComparison.Ordinal);
    }

    [Fact]
    [Trait("Requirement", "SAF-070")]
    public void The_scan_allocates_nothing_for_telemetry_while_nothing_happens_even_when_nobody_takes_the_blocks()
    {
        (_, Toy toy) = Make();
        toy.Ticks(10_000);
        long before = GC.GetAllocatedBytesForCurrentThread();
        toy.Ticks(10_000);
        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
    }

    private static (Thinner Thinner, Toy Toy) Make(double period = 0.005, int waiting = 32)
    {
        Thinner thinner = new(3, TimeSpan.FromSeconds(period), waiting);
        return (thinner, new Toy(new Sink(thinner), period: period));
    }

    private static Block[] Drain(Thinner thinner)
    {
        List<Block> blocks = [];
        while (thinner.Ring.Take() is { } block)
            blocks.Add(block);
        return [.. blocks];
    }

    // Half a slot of the block passes without a scan.
    private static Toy Later(Toy toy, Thinner thinner)
    {
        Toy later = new(new Sink(thinner, toy.Now + TimeSpan.FromMilliseconds(45)));
        return later;
    }

    private sealed class Sink(Thinner thinner, TimeSpan ahead = default) : IRunSink
    {
        public void See(in ScanRecord record, in InputImage image)
        {
            ScanRecord shifted = record;
            shifted.Now += ahead;
            thinner.Take(shifted, image);
        }

        public void Hear(RigEvent happened)
        {
            // Blocks know no events.
        }
    }
}
