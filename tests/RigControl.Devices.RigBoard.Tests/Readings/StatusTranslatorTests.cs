using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Readings;
using RigControl.Devices.RigBoard.Tests.Double;
using RigControl.Model.Signals;

namespace RigControl.Devices.RigBoard.Tests.Readings;

public class StatusTranslatorTests
{
    private static readonly TimeSpan Frame = TimeSpan.FromMilliseconds(5);
    private readonly StatusTranslator _translator = new(Workshop.Options(), Workshop.Disc);
    private readonly SampleList _samples = new(BoardChannels.Declare(Workshop.Options()));
    private TimeSpan _at = TimeSpan.FromSeconds(1);

    [Fact]
    public void A_spike_within_a_frame_keeps_its_own_sample_inside_the_frame()
    {
        Take(Plain());
        _samples.All.Clear();
        Take(Plain() with { Current = new Reading(500, 515, 900) });
        Assert.Equal([-1.46484375, 47.36328125, 0.3662109375], _samples.Values(ChannelNames.BatteryCurrent));
        TimeSpan[] times = [.. _samples.All.Where(s => s.Channel == ChannelNames.BatteryCurrent).Select(s => s.At)];
        Assert.Equal([_at - Frame * 2 / 3, _at - Frame / 3, _at], times);
    }

    [Fact]
    public void A_reading_at_the_end_of_the_range_is_bad_and_the_next_one_is_good_again()
    {
        Take(Plain() with { Voltage = new Reading(400, 500, 1023), Current = new Reading(0, 400, 600) });
        Assert.Equal(Quality.Bad, _samples.Last(ChannelNames.BatteryVoltage).Quality);
        Assert.Contains(_samples.All, s => s.Channel == ChannelNames.BatteryCurrent && s.Quality == Quality.Bad);
        Take(Plain());
        Assert.Equal(Quality.Good, _samples.Last(ChannelNames.BatteryVoltage).Quality);
    }

    [Fact]
    public void A_frame_without_a_reading_writes_none()
    {
        Take(Plain() with { Voltage = new Reading(1023, 0, 0), Current = default });
        Assert.Empty(_samples.Values(ChannelNames.BatteryVoltage));
        Assert.Empty(_samples.Values(ChannelNames.BatteryCurrent));
    }

    [Theory]
    [InlineData(1, ChannelNames.MotorTemperature)]
    [InlineData(2, ChannelNames.MotorTemperature)]
    [InlineData(4, ChannelNames.ControllerTemperature)]
    [InlineData(8, ChannelNames.ControllerTemperature)]
    public void A_thermistor_that_is_open_or_shorted_is_bad_at_once(byte wires, string channel)
    {
        Take(Plain());
        Assert.Equal(25, _samples.Last(channel).Value, 6);
        Take(Plain() with { Wires = wires });
        Assert.Equal(Quality.Bad, _samples.Last(channel).Quality);
        string other = channel == ChannelNames.MotorTemperature ? ChannelNames.ControllerTemperature : ChannelNames.MotorTemperature;
        Assert.Equal(Quality.Good, _samples.Last(other).Quality);
    }

    [Fact]
    public void A_contact_that_changes_is_told_in_that_very_frame()
    {
        Take(Plain());
        _samples.All.Clear();
        Take(Plain() with { Bits = BoardBits.LidContactB | BoardBits.StopClear });
        Assert.Equal([0], _samples.Values(ChannelNames.EnclosureLid));
        Assert.Equal([0], _samples.Values(ChannelNames.EnclosureLock));
        Assert.Empty(_samples.Values(ChannelNames.StopClear));
    }

    [Fact]
    public void A_closed_lid_reads_1_on_one_contact_and_0_on_the_antivalent_one()
    {
        Take(Plain());
        Assert.Equal((1, 0), (_samples.Last(ChannelNames.EnclosureLid).Value, _samples.Last(ChannelNames.EnclosureLidOpen).Value));
        Take(Plain() with { Bits = BoardBits.None });
        Assert.Equal((0, 1), (_samples.Last(ChannelNames.EnclosureLid).Value, _samples.Last(ChannelNames.EnclosureLidOpen).Value));
    }

    [Fact]
    public void What_does_not_change_is_told_often_enough_to_stay_fresh()
    {
        for (int i = 0; i < 200; i++)
            Take(Plain());
        foreach (ChannelDeclaration channel in BoardChannels.Declare(Workshop.Options()))
        {
            TimeSpan[] times = [.. _samples.All.Where(s => s.Channel == channel.Name).Select(s => s.At)];
            Assert.True(times.Length > 40, channel.Name);
            Assert.True(times.Zip(times.Skip(1), (a, b) => b - a).Max() < channel.MaximumAge / 2, channel.Name);
        }
    }

    [Fact]
    public void The_fastest_of_several_turns_in_a_frame_is_not_lost()
    {
        Take(Plain() with { Pulses = 10, Period = 2000, Shortest = 2000, Age = 1000 });
        _samples.All.Clear();
        Take(Plain() with { Pulses = 13, Period = 2000, Shortest = 1500, Age = 1000 });
        Assert.Equal([40_000, 30_000], _samples.Values(ChannelNames.RotorSpeed));
        Assert.Equal(_at - TimeSpan.FromMilliseconds(1), _samples.Last(ChannelNames.RotorSpeed).At);
    }

    [Fact]
    public void No_sample_is_later_than_its_line_and_none_of_a_channel_runs_backwards()
    {
        Random chance = new(11);
        for (int i = 0; i < 2000; i++)
        {
            uint period = (uint)chance.Next(1000, 400_000);
            Take(Plain() with
            {
                Pulses = (ushort)chance.Next(65536), Period = period, Shortest = chance.Next(2) == 0 ? 0 : period / 2, Age = (uint)chance.Next(10_000),
            });
            Assert.True(_samples.All.TrueForAll(s => s.At <= _at), $"seed 11, line {i}");
        }

        foreach (IGrouping<string, TimeSpan> channel in _samples.All.GroupBy(s => s.Channel, s => s.At))
            Assert.Equal(channel.Order(), channel);
    }

    [Fact]
    public void A_rig_without_tachometer_has_no_speed()
    {
        RigBoardOptions options = Workshop.Options();
        options.Tachometer = false;
        SampleList samples = new(BoardChannels.Declare(options));
        new StatusTranslator(options, Workshop.Disc).Write(Plain(), _at, samples);
        Assert.DoesNotContain(samples.All, s => s.Channel == ChannelNames.RotorSpeed);
        Assert.NotEmpty(samples.All);
    }

    [Fact]
    public void Once_it_runs_a_line_allocates_nothing()
    {
        StatusTranslator translator = new(Workshop.Options(), Workshop.Disc);
        Sink sink = new();
        BoardStatus status = Plain();
        translator.Write(status, _at, sink);
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 1; i <= 1000; i++)
            translator.Write(status, _at + i * Frame, sink);
        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
        Assert.True(sink.Count > 7000);
    }

    private void Take(BoardStatus status)
    {
        _at += Frame;
        _translator.Write(status, _at, _samples);
    }

    private static BoardStatus Plain() => new()
    {
        Bits = BoardBits.LidContactA | BoardBits.LidContactB | BoardBits.BoltHome | BoardBits.StopClear,
        Demanded = 1000, Measured = 1000, Age = RotorSpeed.LongestAge,
        Voltage = new Reading(400, 405, 410), Current = new Reading(512, 512, 512),
        Thermistor1 = new Reading(512, 512, 512), Thermistor2 = new Reading(512, 512, 512),
    };

    private sealed class Sink : Contracts.ISampleWriter
    {
        public int Count { get; private set; }

        public void Write(int channel, TimeSpan at, double value, Quality quality = Quality.Good) => Count++;
    }
}
