using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Devices;

/// <summary>Devices on threads of their own, on a clock that only the test moves.</summary>
public sealed class DeviceThreadTests : IDisposable
{
    private static readonly TimeSpan OldestOutputs = TimeSpan.FromMilliseconds(50);

    private readonly ManualTime _time = new();
    private readonly ManualResetEventSlim _release = new();
    private readonly SemaphoreSlim _read = new(0);
    private readonly List<RigEvent> _heard = [];
    private AssembledRig? _rig;
    private DeviceThread[] _threads = [];
    private ScanCycle? _cycle;
    private LostDevices? _lost;
    private int _scans;

    public void Dispose()
    {
        _release.Set();
        foreach (DeviceThread thread in _threads)
            thread.End();
        _rig?.Dispose();
    }

    [Fact]
    public void A_device_that_hangs_is_named_while_the_scan_and_the_other_devices_go_on()
    {
        using ManualResetEventSlim entered = new();
        Start(new ToyDevice("x")
        {
            OnRead = (_, _) =>
            {
                entered.Set();
                _release.Wait();
            },
        });
        entered.Wait(TestContext.Current.CancellationToken);
        Scan();
        Assert.DoesNotContain(_heard, e => e.Name == EventNames.DeviceLost);

        _time.Pass(DeviceLimits.CallDeadline + TimeSpan.FromMilliseconds(1));
        Scan();

        RigEvent lost = Assert.Single(_heard, e => e.Name == EventNames.DeviceLost);
        Assert.Equal(("bad", "device bad has not answered for 500 ms"), (lost.Subject, lost.Text));
        AwaitOtherDevice();
        long before = _cycle!.ScanNumber;
        Scan();
        Assert.Equal(before + 1, _cycle.ScanNumber);
        Assert.Single(_heard, e => e.Name == EventNames.DeviceLost);
    }

    [Fact]
    public void A_device_that_throws_on_its_thread_is_named_and_the_others_are_served()
    {
        Start(new ToyDevice("x") { OnRead = (_, _) => throw new InvalidOperationException("the wire is off") });
        ScanUntil(() => _lost!.First is not null);

        Assert.Equal("device bad failed: the wire is off", _lost!.First);
        AwaitOtherDevice();
    }

    [Fact]
    public void A_device_with_a_period_of_a_millisecond_is_not_read_without_a_pause()
    {
        ToyDevice quick = new("x") { ReadPeriod = TimeSpan.FromMilliseconds(1) };
        long began = System.Diagnostics.Stopwatch.GetTimestamp();
        Start(quick);
        while (quick.Reads < 20)
            Thread.Yield();
        int reads = quick.Reads;
        double passed = System.Diagnostics.Stopwatch.GetElapsedTime(began).TotalMilliseconds;

        Assert.True(reads <= passed + 2, $"{reads} reads in {passed:0.0} ms");
    }

    [Fact]
    public void A_device_whose_samples_nobody_fetches_is_lost_and_the_memory_stays_bounded()
    {
        ToyDevice fast = new("x")
        {
            ReadPeriod = TimeSpan.Zero,
            OnRead = (now, writer) =>
            {
                for (int i = 0; i < DeviceLimits.SamplesPerRead; i++)
                    writer.Write(0, now, 1);
            },
        };
        Start(fast);
        while (_rig!.Devices[0].Lost is null)
            Thread.Yield();
        Scan();

        Assert.Equal("device bad failed: more than 65536 of its samples wait to be read", _lost!.First);
        Assert.InRange(fast.Reads, 16, 18);
    }

    [Fact]
    public void Nothing_is_put_out_before_the_first_scan_has_said_what()
    {
        ToyDevice bad = new("x");
        Start(bad);
        AwaitOtherDevice();
        while (bad.Reads < 3)
            Thread.Yield();

        Assert.Equal(0, bad.Applies);
        Assert.Equal(0, _threads[0].Applied.Scan);
    }

    [Fact]
    public void What_a_device_has_taken_is_told_with_the_scan_it_came_from()
    {
        ToyDevice toy = new("x");
        Start(toy);
        _threads[0].Put(7, new OutputImage { Pulse = 1234 });
        while (_threads[0].Applied.Scan != 7)
            Thread.Yield();

        Assert.Equal(1234, toy.Told.Pulse);
    }

    [Fact]
    public void A_scan_that_hangs_feeds_nobody_with_its_last_word()
    {
        ToyDevice toy = new("x");
        Start(toy);
        _threads[0].Put(7, new OutputImage { Pulse = 1600 });
        while (_threads[0].Applied.Scan != 7)
            Thread.Yield();

        _time.Pass(OldestOutputs + TimeSpan.FromMilliseconds(1));
        // The turn that is under way may still have looked at the clock before it was moved; the one after it has not.
        AwaitReads(toy, 2);
        int fed = toy.Applies;
        AwaitReads(toy, 5);
        Assert.Equal(fed, toy.Applies);

        _threads[0].Put(8, new OutputImage { Pulse = 1000 });
        while (_threads[0].Applied.Scan != 8)
            Thread.Yield();
        Assert.Equal(1000, toy.Told.Pulse);
    }

    [Fact]
    public void A_device_that_fails_to_take_the_outputs_does_not_count_as_having_taken_them()
    {
        Start(new ToyDevice("x") { OnApply = _ => throw new InvalidOperationException("the relay sticks") });
        _threads[0].Put(7, default);
        ScanUntil(() => _lost!.First is not null);
        _threads[0].End();

        Assert.Equal(0, _threads[0].Applied.Scan);
    }

    [Fact]
    public void The_last_word_reaches_a_device_whose_thread_is_ended()
    {
        ToyDevice toy = new("x");
        Start(toy);
        _threads[0].Put(long.MaxValue, new OutputImage { Pulse = 1000 });
        _threads[0].End();

        Assert.Equal((1000.0, long.MaxValue), (toy.Told.Pulse, _threads[0].Applied.Scan));
    }

    [Fact]
    public void A_thread_that_never_began_can_be_ended()
    {
        Assemble(new ToyDevice("x"));

        Assert.Null(Record.Exception(() => _threads[0].End()));
    }

    private void Assemble(ToyDevice bad)
    {
        ToyDevice good = new("y")
        {
            OnRead = (now, writer) =>
            {
                writer.Write(0, now, 1);
                _read.Release();
            },
        };
        _rig = new TestRig { Time = _time, Devices = { ["bad"] = _ => bad, ["good"] = _ => good } }.Assemble();
        ChunkQueue queue = new(64, _rig.Devices.Count);
        _cycle = new ScanCycle(_rig, new CommandInbox(), new RunWatch(_heard.Add, null), queue, Timeout.InfiniteTimeSpan);
        _lost = new LostDevices(_rig.Devices, _cycle);
        // In order of id: bad, bench, good; the bench stays unread here.
        _threads = [.. new[] { 0, 2 }.Select(place => new DeviceThread(_rig.Devices[place], _rig.Clock, OldestOutputs))];
    }

    private void Start(ToyDevice bad)
    {
        Assemble(bad);
        foreach (DeviceThread thread in _threads)
            thread.Start();
    }

    private void Scan()
    {
        _threads[0].Empty(0, _cycle!);
        _threads[1].Empty(2, _cycle!);
        TimeSpan now = TimeSpan.FromMilliseconds(5 * ++_scans);
        _lost!.Follow(now);
        _cycle!.Scan(now);
        Assert.Equal(RigState.SafeStop, _cycle.State);
    }

    private void ScanUntil(Func<bool> done)
    {
        while (!done())
        {
            Scan();
            Thread.Yield();
        }
    }

    private static void AwaitReads(ToyDevice toy, int more)
    {
        int enough = toy.Reads + more;
        while (toy.Reads < enough)
            Thread.Yield();
    }

    private void AwaitOtherDevice()
    {
        while (_read.Wait(0))
        {
            // Only reads from now on count.
        }

        _read.Wait(TestContext.Current.CancellationToken);
    }
}
