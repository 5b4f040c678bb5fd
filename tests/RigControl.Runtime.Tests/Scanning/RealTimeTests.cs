using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Scanning;

/// <summary>Short runs with real threads and the real clock. Nothing here asserts how long anything took.</summary>
[Collection(RealClock.Name)]
public class RealTimeTests
{
    private static readonly TimeSpan Millisecond = TimeSpan.FromMilliseconds(1);

    [Fact]
    public void A_run_at_a_thousand_scans_a_second_is_recorded_without_a_gap()
    {
        (RunResult result, MemoryRecorder record) = Run.Of(new TestRig { Period = Millisecond }, new LeavingOperator(200), Pace.Real);

        Assert.Equal(RunOutcome.Refused, result.Outcome);
        Assert.Equal(Enumerable.Range(1, 200).Select(n => (long)n), record.Scans.Select(s => s.Scan));
        Assert.All(record.Scans.Zip(record.Scans.Skip(1)), p => Assert.True(p.Second.Now > p.First.Now));
        Assert.Equal(record.Samples[0].Count, record.Scans[^1].Watermarks[0]);
        Assert.NotEmpty(record.Samples[0]);
        Assert.All(record.Samples[0], s => Assert.True(s.At <= record.Scans[^1].Now));
    }

    [Fact]
    public void A_device_that_may_block_is_served_on_a_thread_of_its_own_and_hears_stop_last()
    {
        ToyDevice slow = new("x") { Traits = DeviceTraits.Simulated };
        (_, MemoryRecorder record) = Run.Of(new TestRig { Period = Millisecond, Devices = { ["slow"] = _ => slow } }, new LeavingOperator(100), Pace.Real);

        Assert.NotEmpty(record.Samples.Last(s => s.Any(x => x.Channel == 15)));
        Assert.True(slow.Applies > 0);
        Assert.Equal((1000.0, false), (slow.Told.Pulse, slow.Told.Power));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_device_that_throws_on_its_thread_ends_the_run_before_it_is_armed(bool inRead)
    {
        ToyDevice bad = new("x")
        {
            OnRead = (_, _) => Throw(inRead),
            OnApply = _ => Throw(!inRead),
        };
        (RunResult result, MemoryRecorder record) = Run.Of(new TestRig { Period = Millisecond, Devices = { ["bad"] = _ => bad } }, new LeavingOperator(int.MaxValue), Pace.Real);

        Assert.Equal((RunOutcome.Failed, "device bad failed: the wire is off"), (result.Outcome, result.Note));
        Assert.Equal("bad", record.The(EventNames.DeviceLost).Subject);
    }

    [Fact]
    public void A_trip_of_a_rotor_that_never_turned_is_told_once_before_the_run_ends()
    {
        (RunResult result, MemoryRecorder record) = Run.Of(new TestRig { Article = TestRig.SmallDisc with { LongestCoastDown = TimeSpan.FromSeconds(1) } }, new ArmAndStop(), Pace.Real);

        Assert.Equal(RunOutcome.SafeStop, result.Outcome);
        Assert.True(record.Scans[^1].AtStandstill);
        Assert.All(record.Events.Where(e => e.Name == EventNames.Trip), e => Assert.True(!e.Data.TryGetValue("reaction", out object? reaction) || (double)reaction >= 0));
        Assert.Single(record.Events, e => e.Name == EventNames.Trip);
    }

    [Fact]
    public void A_scan_that_fails_says_so_and_leaves_every_device_at_stop()
    {
        ToyDevice heard = new("x");
        using AssembledRig rig = new TestRig { Period = Millisecond, Devices = { ["heard"] = _ => heard } }.Assemble();
        MeddlingOperator breaks = new((in ScanRecord r, CommandInbox _) =>
        {
            if (r.Scan == 50)
                throw new InvalidOperationException("the terminal is gone");
        });

        InvalidOperationException failed = Assert.Throws<InvalidOperationException>(() => Run.Of(rig, new MemoryRecorder(), breaks, Pace.Real));
        Assert.Equal("the scan failed: the terminal is gone", failed.Message);
        Assert.Equal((1000.0, false), (heard.Told.Pulse, heard.Told.Power));
    }

    [Fact]
    public void An_observer_that_fails_before_the_first_scan_does_not_take_the_process_down()
    {
        using AssembledRig rig = new TestRig { Period = Millisecond }.Assemble();
        RigEvent opening = new(TimeSpan.Zero, 0, EventNames.DeviceNote, "host", "opening", new Dictionary<string, object>());
        using RunSession session = new(rig, new MemoryRecorder(), new LeavingOperator(10), Pace.Real, [opening], _ => throw new InvalidOperationException("deaf"));

        Assert.Contains("deaf", Assert.Throws<InvalidOperationException>(session.Run).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Outputs_that_no_device_has_taken_yet_are_not_out()
    {
        using AssembledRig rig = new TestRig().Assemble();

        Assert.Null(new RealTime(rig, rig.Clock).OutAt(1));
    }

    private static void Throw(bool now)
    {
        if (now)
            throw new InvalidOperationException("the wire is off");
    }

    /// <summary>Arms, and stops at once. On a busy machine a reading may be late and the arm refused, so that it asks again.</summary>
    private sealed class ArmAndStop : IOperator
    {
        public string Name => "arm and stop";

        public bool HasGivenUp => false;

        public void See(in ScanRecord record, CommandInbox inbox)
        {
            if (record.State == RigState.Arming)
                inbox.Post(CommandKind.Stop, CommandSource.Bench);
            else if (record.AwaitsLook)
                inbox.Post(CommandKind.Look, CommandSource.Bench);
            else if (record.Scan % 20 == 0 && record.AtStandstill)
                inbox.Post(record.State == RigState.Idle ? CommandKind.Arm : CommandKind.Reset, CommandSource.Bench);
        }
    }
}
