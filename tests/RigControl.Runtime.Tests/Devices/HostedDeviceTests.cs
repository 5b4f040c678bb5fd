using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Devices;

public class HostedDeviceTests
{
    private static readonly TimeSpan Now = TimeSpan.FromSeconds(1);
    private readonly ManualTime _time = new();

    [Fact]
    public void A_sound_device_is_read_and_told()
    {
        ToyDevice toy = new("x");
        HostedDevice hosted = Host(toy);
        hosted.Read(Now);
        hosted.Apply(Now, new OutputImage { Pulse = 1200 });

        Assert.Equal(new Sample(0, Quality.Good, Now, 1), hosted.Intake.Samples.Samples[0]);
        Assert.Equal(1200, toy.Told.Pulse);
        Assert.Null(hosted.Lost);
    }

    [Fact]
    public void The_first_reason_stays_whatever_comes_after_it()
    {
        HostedDevice hosted = Host(new ToyDevice("x"));
        hosted.Lose("the first");
        hosted.Lose("the second");

        Assert.Equal("device toy failed: the first", hosted.Lost);
    }

    [Fact]
    public void A_device_may_write_as_much_as_the_contract_allows_in_every_read()
    {
        HostedDevice hosted = Host(new ToyDevice("x")
        {
            OnRead = (now, writer) =>
            {
                for (int i = 0; i < DeviceLimits.SamplesPerRead; i++)
                    writer.Write(0, now, i);
            },
        });
        hosted.Read(Now);
        hosted.Read(Now);

        Assert.Null(hosted.Lost);
        Assert.Equal(2 * DeviceLimits.SamplesPerRead, hosted.Intake.Samples.Count);
    }

    [Fact]
    public void Of_a_device_that_floods_no_more_than_the_allowed_samples_are_kept()
    {
        HostedDevice hosted = Host(new ToyDevice("x") { OnRead = (now, writer) => { while (true) writer.Write(0, now, 1); } });
        hosted.Read(Now);

        Assert.NotNull(hosted.Lost);
        Assert.Equal(DeviceLimits.SamplesPerRead, hosted.Intake.Samples.Count);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.MaxValue)]
    public void A_reading_that_is_no_number_is_kept_as_it_is_and_harms_nothing(double value)
    {
        HostedDevice hosted = Host(new ToyDevice("x") { OnRead = (now, writer) => writer.Write(0, now, value) });
        hosted.Read(Now);

        Assert.Null(hosted.Lost);
        Assert.False(hosted.Intake.Samples.Samples[0].Value is >= -1000 and <= 1000);
    }

    [Fact]
    public void A_device_that_does_not_come_back_is_lost_once_its_time_is_up()
    {
        HostedDevice? hosted = null;
        List<string?> seen = [];
        hosted = Host(new ToyDevice("x")
        {
            OnRead = (_, _) =>
            {
                _time.Pass(DeviceLimits.CallDeadline);
                hosted!.LoseIfHung();
                seen.Add(hosted.Lost);
                _time.Pass(TimeSpan.FromTicks(1));
                hosted.LoseIfHung();
                seen.Add(hosted.Lost);
            },
        });
        hosted.Watched = true;
        hosted.Read(Now);

        Assert.Equal([null, "device toy has not answered for 500 ms"], seen);
    }

    [Fact]
    public void A_device_between_two_calls_is_never_taken_for_hung()
    {
        HostedDevice hosted = Host(new ToyDevice("x"));
        hosted.Watched = true;
        hosted.Read(Now);
        _time.Pass(TimeSpan.FromHours(1));
        hosted.LoseIfHung();

        Assert.Null(hosted.Lost);
    }

    [Fact]
    public void A_device_that_cannot_be_closed_does_not_stop_the_others_from_being_closed()
    {
        ToyDevice other = new("y");
        AssembledRig rig = new TestRig
        {
            Devices = { ["a"] = _ => new ToyDevice("x") { OnDispose = () => throw new InvalidOperationException() }, ["b"] = _ => other },
        }.Assemble();
        rig.Dispose();

        Assert.True(other.Disposed);
    }

    private HostedDevice Host(ToyDevice toy) => new("toy", toy, [new Channel(0, "x", 0, toy.Channels[0])], _time);
}
