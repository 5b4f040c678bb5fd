using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Scanning;

/// <summary>What a failing device does to a run in lock-step: it is named, the rig stops, the others go on.</summary>
public class LockStepDeviceTests
{
    [Theory]
    [InlineData("throws", "device bad failed: the wire is off")]
    [InlineData("floods", "device bad failed: it wrote more than 4096 samples in one read")]
    [InlineData("undeclared", "device bad failed: it wrote to its channel 1, but declared only 1")]
    [InlineData("negative", "device bad failed: it wrote to its channel -1, but declared only 1")]
    public void A_device_that_fails_before_anything_is_armed_is_named_and_the_rig_never_arms(string how, string reason)
    {
        (RunResult result, MemoryRecorder record) = Run.Of(new TestRig { Devices = { ["bad"] = _ => Failing(how, TimeSpan.Zero) } });

        Assert.Equal((RunOutcome.Failed, reason), (result.Outcome, result.Note));
        Assert.Equal(("bad", reason), (record.The(EventNames.DeviceLost).Subject, record.The(EventNames.DeviceLost).Text));
        Assert.DoesNotContain(record.Scans, s => s.State == RigState.Arming);
    }

    [Theory]
    [InlineData("throws")]
    [InlineData("floods")]
    [InlineData("undeclared")]
    public void A_device_that_fails_while_the_rotor_turns_stops_the_rig_and_the_bench_is_read_to_standstill(string how)
    {
        (RunResult result, MemoryRecorder record) = Run.Of(new TestRig { Devices = { ["bad"] = _ => Failing(how, TurningAt()) } });

        StoppedByTheHost(result, record);
        RigEvent lost = record.The(EventNames.DeviceLost);
        Assert.Equal("bad", lost.Subject);
        // The scan that hears of it is the scan that stops.
        Assert.Equal(RigState.SafeStop, record.Scans.Single(s => s.Scan == lost.Scan).State);
        Assert.True(record.Scans[^1].AtStandstill);
        Assert.Equal(record.Scans[^1].Now, record.Samples[1].Last(s => s.Channel == 1).At);
    }

    [Fact]
    public void A_device_that_throws_when_it_is_told_the_outputs_stops_the_rig_one_scan_later()
    {
        int applied = 0;
        ToyDevice bad = new("x") { OnApply = o => { if (o.Throttle > 0.2 && ++applied == 1) throw new InvalidOperationException("the relay sticks"); } };
        (RunResult result, MemoryRecorder record) = Run.Of(new TestRig { Devices = { ["bad"] = _ => bad } });

        StoppedByTheHost(result, record);
        Assert.Equal("device bad failed: the relay sticks", result.Note);
    }

    [Fact]
    public void A_lost_device_is_not_called_again_and_its_health_reads_zero()
    {
        ToyDevice bad = Failing("throws", TimeSpan.Zero);
        ushort health = 0;
        using AssembledRig rig = new TestRig { Devices = { ["bad"] = _ => bad } }.Assemble();
        health = (ushort)rig.Channels.Single(c => c.Name == ChannelNames.DeviceHealth("bad")).Index;
        MemoryRecorder record = new();
        Run.Of(rig, record);

        Assert.Equal((1, 0), (bad.Reads, bad.Applies));
        Assert.Equal(0, record.Samples[^1].First(s => s.Channel == health).Value);
    }

    [Fact]
    public void Two_devices_that_fail_are_both_named_and_the_first_stands_in_the_result()
    {
        (RunResult result, MemoryRecorder record) = Run.Of(new TestRig
        {
            Devices = { ["a"] = _ => Failing("throws", TimeSpan.Zero), ["z"] = _ => Failing("floods", TimeSpan.Zero) },
            Renamed = { ["z"] = new() { ["x"] = "y" } },
        });

        Assert.Equal(["a", "z"], record.Events.Where(e => e.Name == EventNames.DeviceLost).Select(e => e.Subject));
        Assert.Equal("device a failed: the wire is off", result.Note);
    }

    [Fact]
    public void An_operator_who_insists_cannot_arm_a_rig_with_a_lost_device()
    {
        using AssembledRig rig = new TestRig { Devices = { ["bad"] = _ => Failing("throws", TimeSpan.FromMilliseconds(10)) } }.Assemble();
        CommandInbox inbox = new();
        ChunkQueue queue = new(4, rig.Devices.Count);
        bool armed = false;
        ScanCycle cycle = new(rig, inbox, new RunWatch(null, (in ScanRecord r) => armed |= r.State == RigState.Arming), queue, Timeout.InfiniteTimeSpan);
        LostDevices lost = new(rig.Devices, cycle);
        int scans = 0;
        new LockStep(rig, cycle, lost, null).Run(() =>
        {
            inbox.Post(CommandKind.Reset, CommandSource.Bench);
            inbox.Post(CommandKind.Arm, CommandSource.Bench);
            while (queue.Take(TimeSpan.Zero) is { } chunk)
                queue.Return(chunk);
            return ++scans > 2000;
        });

        Assert.NotNull(lost.First);
        Assert.False(armed);
    }

    [Fact]
    public void The_last_word_to_every_device_is_stop_even_when_the_scan_itself_is_torn_down()
    {
        ToyDevice heard = new("x");
        using AssembledRig rig = new TestRig { Devices = { ["heard"] = _ => heard } }.Assemble();
        MeddlingOperator breaks = new((in ScanRecord r, CommandInbox _) =>
        {
            if (r.State == RigState.Hold)
                throw new InvalidOperationException("the terminal is gone");
        });

        Assert.Throws<InvalidOperationException>(() => Run.Of(rig, new MemoryRecorder(), breaks));
        Assert.Equal((1000.0, 0.0, false, false), (heard.Told.Pulse, heard.Told.Throttle, heard.Told.Power, heard.Told.Unlocked));
    }

    // The sample procedure turns the rotor from about three seconds of warning on; the moment is taken from a sound run.
    private static TimeSpan TurningAt() =>
        Run.Of(new TestRig()).Record.Scans.First(s => s.State == RigState.Hold).Now;

    private static void StoppedByTheHost(RunResult result, MemoryRecorder record)
    {
        Assert.Equal(RunOutcome.SafeStop, result.Outcome);
        Assert.Contains(record.Scans, s => s.NewCauses.HasFlag(TripCause.HostStop));
        Assert.Contains(record.Events, e => e is { Name: EventNames.Trip, Subject: "host-stop" });
        Assert.Equal(1, record.Events.Count(e => e.Name == EventNames.DeviceLost));
    }

    private static ToyDevice Failing(string how, TimeSpan from) => new("x")
    {
        OnRead = (now, writer) =>
        {
            if (now < from)
                writer.Write(0, now, 1);
            else
                Fail(how, now, writer);
        },
    };

    private static void Fail(string how, TimeSpan now, ISampleWriter writer)
    {
        switch (how)
        {
            case "throws":
                throw new InvalidOperationException("the wire is off");
            case "floods":
                while (true)
                    writer.Write(0, now, 1);
            default:
                writer.Write(how == "negative" ? -1 : 1, now, 1);
                break;
        }
    }
}
