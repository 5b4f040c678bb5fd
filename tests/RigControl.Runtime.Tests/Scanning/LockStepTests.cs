using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Scanning;

public class LockStepTests
{
    [Fact]
    public void The_same_seed_gives_the_same_run_record_by_record_and_sample_by_sample()
    {
        MemoryRecorder first = Run.Of(new TestRig(), seed: 7).Record;
        MemoryRecorder second = Run.Of(new TestRig(), seed: 7).Record;

        Assert.Equal(first.Fingerprint, second.Fingerprint);
        Assert.Equal(first.Samples, second.Samples);
        Assert.Equal(first.Events.Select(e => (e.At, e.Scan, e.Name, e.Text)), second.Events.Select(e => (e.At, e.Scan, e.Name, e.Text)));
    }

    [Fact]
    public void Another_seed_gives_other_readings() =>
        Assert.NotEqual(Run.Of(new TestRig(), seed: 7).Record.Samples[0], Run.Of(new TestRig(), seed: 8).Record.Samples[0]);

    [Fact]
    public void The_pace_changes_nothing_in_the_record()
    {
        MemoryRecorder fast = Run.Of(new TestRig(), seed: 7).Record;
        MemoryRecorder paced = Run.Of(new TestRig(), pace: Pace.Times(40), seed: 7).Record;

        Assert.Equal(fast.Fingerprint, paced.Fingerprint);
        Assert.Equal(fast.Samples, paced.Samples);
    }

    [Fact]
    public void Every_sample_that_was_folded_is_recorded_and_the_last_scan_counts_them()
    {
        MemoryRecorder record = Run.Of(new TestRig { Devices = { ["toy"] = _ => new ToyDevice("x") } }).Record;

        for (int i = 0; i < record.Samples.Count; i++)
            Assert.Equal(record.Samples[i].Count, record.Scans[^1].Watermarks[i]);
        Assert.Equal(3, record.Samples.Count);
        Assert.All(record.Samples, s => Assert.NotEmpty(s));
    }

    [Fact]
    public void Scans_are_numbered_without_a_gap_and_lie_one_period_apart()
    {
        MemoryRecorder record = Run.Of(new TestRig()).Record;

        Assert.Equal(Enumerable.Range(1, record.Scans.Count).Select(n => (long)n), record.Scans.Select(s => s.Scan));
        Assert.All(record.Scans, s => Assert.Equal(s.Scan * 5, s.Now.TotalMilliseconds));
    }

    [Fact]
    public void Devices_are_read_in_the_order_of_their_ids_whatever_order_the_file_has()
    {
        List<string> read = [];
        TestRig rig = new()
        {
            Devices = { ["zeta"] = _ => Noting("zeta"), ["alpha"] = _ => Noting("alpha"), ["cello"] = _ => Noting("cello") },
            Renamed = { ["zeta"] = new() { ["x"] = "z" }, ["cello"] = new() { ["x"] = "c" } },
        };
        using AssembledRig assembled = rig.Assemble();
        Run.Of(assembled, new MemoryRecorder(), new LeavingOperator(2));

        Assert.Equal(["alpha", "bench", "cello", "zeta", "host"], assembled.DeviceIdentities.Select(d => d.Id));
        Assert.Equal(["alpha", "cello", "zeta", "alpha", "cello", "zeta"], read.Take(6));

        ToyDevice Noting(string id) => new("x") { OnRead = (_, _) => read.Add(id) };
    }

    [Theory]
    [InlineData(0.1, 1.26, 1.3)]
    [InlineData(0.1, -1.26, -1.3)]
    [InlineData(0.5, 1.26, 1.5)]
    [InlineData(0, 1.26, 1.26)]
    public void A_reading_is_rounded_to_the_channels_resolution_before_anybody_sees_it(double resolution, double read, double recorded)
    {
        TestRig rig = new()
        {
            Devices = { ["a"] = _ => new ToyDevice("x") { Resolution = resolution, OnRead = (now, writer) => writer.Write(0, now, read) } },
        };
        using AssembledRig assembled = rig.Assemble();
        MemoryRecorder record = new();
        Run.Of(assembled, record, new LeavingOperator(3));

        Assert.All(record.Samples[0], s => Assert.Equal(recorded, s.Value, 12));
        Assert.Equal(3, record.Samples[0].Count);
    }

    [Fact]
    public void What_is_decided_on_is_the_very_value_that_is_recorded()
    {
        using AssembledRig rig = new TestRig { Devices = { ["a"] = _ => new ToyDevice("x") { OnRead = (now, w) => w.Write(0, now, 1.26) } } }.Assemble();
        MemoryRecorder record = new();
        using RunSession session = new(rig, record, new LeavingOperator(3), Pace.Max, [], null);
        session.Run();

        Assert.Equal(record.Samples[0][0].Value, session.Watch.Latest().Image[0].Last);
    }

    [Fact]
    public void A_pace_other_than_real_refuses_a_rig_whose_devices_may_block()
    {
        using AssembledRig rig = new TestRig { Devices = { ["slow"] = _ => new ToyDevice("x") { Traits = DeviceTraits.Simulated } } }.Assemble();

        Assert.False(rig.CanRunInLockStep);
        Assert.Throws<ArgumentException>(() => new RunSession(rig, new MemoryRecorder(), new ScriptedOperator(rig.Documents.Procedure), Pace.Max, [], null));
    }
}
