using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Sessions;

/// <summary>An interlock or a device that hangs inside the scan: named, recorded, and the devices told to stop.</summary>
[Collection(RealClock.Name)]
public sealed class HungCodeTests : IDisposable
{
    private readonly ManualResetEventSlim _release = new();
    private readonly ManualResetEventSlim _hung = new();
    private readonly MemoryRecorder _record = new();
    private string? _sentence;

    public void Dispose()
    {
        _release.Set();
        _hung.Dispose();
    }

    [Fact]
    [Trait("Requirement", "SAF-077")]
    public void An_interlock_that_hangs_on_the_real_clock_leaves_the_devices_silent_until_they_are_told_to_stop()
    {
        List<TimeSpan> told = [];
        long began = System.Diagnostics.Stopwatch.GetTimestamp();
        ToyDevice drive = new("x")
        {
            Traits = DeviceTraits.Simulated | DeviceTraits.DrivesOutput, OnApply = _ => told.Add(System.Diagnostics.Stopwatch.GetElapsedTime(began)),
        };
        TestRig rig = new() { Interlocks = { ["belt"] = _ => HangsFrom(TimeSpan.FromSeconds(0.3)) }, Devices = { ["drive"] = _ => drive } };

        Begin(rig, Pace.Real);

        Assert.StartsWith("the interlock belt has not come back for 500 ms", _sentence, StringComparison.Ordinal);
        // What the hung scan said last is not said again; the very last word is the supervisor's.
        TimeSpan longest = told.Zip(told.Skip(1), (one, next) => next - one).Max();
        Assert.True(longest > Supervisor.Deadline / 2, $"it was never silent for longer than {longest}");
        Assert.Equal((0, 1000, false, false), (drive.Told.Throttle, drive.Told.Pulse, drive.Told.Power, drive.Told.Unlocked));
        AssertRecordedUpTo(TimeSpan.Zero);
    }

    [Fact]
    [Trait("Requirement", "SAF-077")]
    public void A_drive_that_was_turning_a_motor_when_an_interlock_hung_is_told_to_stop()
    {
        ToyDevice drive = new("x") { Traits = DeviceTraits.Simulated | DeviceTraits.DrivesOutput };
        OutputImage before = default;
        ToyInterlock hanging = new()
        {
            OnEvaluate = now =>
            {
                if (drive.Told is { Throttle: > 0, Power: true } driven)
                {
                    before = driven;
                    _release.Wait();
                }

                return Demand.Proceed(-1, 0, 0, 1, now);
            },
        };

        Begin(new TestRig { Interlocks = { ["belt"] = _ => hanging }, Devices = { ["drive"] = _ => drive } }, Pace.Real);

        Assert.StartsWith("the interlock belt has not come back", _sentence, StringComparison.Ordinal);
        Assert.True(before.Pulse > 1000, $"it was told {before}");
        Assert.Equal((0, 1000, false), (drive.Told.Throttle, drive.Told.Pulse, drive.Told.Power));
    }

    [Fact]
    public void An_interlock_that_hangs_in_lock_step_leaves_every_scan_before_it_in_the_record()
    {
        TestRig rig = new() { Interlocks = { ["belt"] = _ => HangsFrom(TimeSpan.FromSeconds(2)) } };

        Begin(rig, Pace.Max);

        Assert.StartsWith("the interlock belt has not come back", _sentence, StringComparison.Ordinal);
        Assert.Equal(TimeSpan.FromSeconds(2) - rig.Period, _record.Scans[^1].Now);
        AssertRecordedUpTo(TimeSpan.FromSeconds(1.9));
    }

    [Fact]
    public void A_device_that_hangs_in_lock_step_is_named()
    {
        ToyDevice hanging = new("x")
        {
            OnRead = (now, writer) =>
            {
                if (now >= TimeSpan.FromSeconds(2))
                    _release.Wait();
                writer.Write(0, now, 1);
            },
        };

        Begin(new TestRig { Devices = { ["belt"] = _ => hanging } }, Pace.Max);

        Assert.StartsWith("the device belt has not come back", _sentence, StringComparison.Ordinal);
        AssertRecordedUpTo(TimeSpan.FromSeconds(1.9));
    }

    // The session never returns: its thread is parked and left behind.
    private void Begin(TestRig rig, Pace pace)
    {
        AssembledRig assembled = rig.Assemble();
        RunSession session = new(assembled, _record, new ScriptedOperator(rig.Documents.Procedure), pace, [], null)
        {
            OnHung = sentence =>
            {
                _sentence = sentence;
                _hung.Set();
            },
        };
        RunResult? result = null;
        new Thread(() =>
        {
            result = session.Run();
            _hung.Set();
        })
        { IsBackground = true }.Start();
        _hung.Wait(TestContext.Current.CancellationToken);
        Assert.True(result is null, $"nobody was named; the run ended {result?.Outcome} {result?.Note}: {string.Join("; ", _record.Events.Select(e => $"{e.At.TotalSeconds:0.000} {e.Text}"))}");
    }

    private void AssertRecordedUpTo(TimeSpan time)
    {
        RigEvent told = Assert.Single(_record.Events, e => e.Name == EventNames.Hung);
        Assert.Equal(_sentence, told.Text);
        Assert.True(_record.Scans[^1].Now >= time, $"the record ends at {_record.Scans[^1].Now}");
        Assert.Equal((_record.Scans.Count, _record.Events.Count), _record.Safe);
    }

    private ToyInterlock HangsFrom(TimeSpan from) => new()
    {
        OnEvaluate = now =>
        {
            if (now >= from)
                _release.Wait();
            return Demand.Proceed(-1, 0, 0, 1, now);
        },
    };
}
