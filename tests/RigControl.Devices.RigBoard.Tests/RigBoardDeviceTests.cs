using System.Text;
using RigControl.Contracts;
using RigControl.Devices.RigBoard.Protocol;
using RigControl.Devices.RigBoard.Tests.Double;
using RigControl.Model.Signals;

namespace RigControl.Devices.RigBoard.Tests;

public class RigBoardDeviceTests
{
    [Fact]
    public void It_drives_the_output_and_is_never_called_simulated()
    {
        using Session session = new();
        Assert.Equal(DeviceTraits.DrivesOutput | DeviceTraits.CeasesPulses, session.Device.Traits);
        Assert.Equal(TimeSpan.Zero, session.Device.ReadPeriod);
    }

    [Fact]
    public void Every_channel_gets_samples_within_its_range_and_its_greatest_age()
    {
        using Session session = new();
        session.SpinUp();
        foreach (ChannelDeclaration channel in session.Device.Channels)
        {
            (_, TimeSpan at, double value, Quality quality) = session.Samples.Last(channel.Name);
            Assert.True(quality == Quality.Good, channel.Name);
            Assert.InRange(value, channel.Minimum, channel.Maximum);
            Assert.InRange(session.Time.Now - at, TimeSpan.Zero, channel.MaximumAge);
        }
    }

    [Fact]
    public void What_the_board_says_is_what_the_channels_show()
    {
        using Session session = new();
        session.SpinUp();
        SampleList seen = session.Samples;
        Assert.Equal(5000, seen.Last(ChannelNames.RotorSpeed).Value, 6);
        Assert.Equal(50, seen.Last(ChannelNames.OutputThrottle).Value, 6);
        Assert.Equal(1500, seen.Last(ChannelNames.OutputPulse).Value);
        Assert.Equal(1, seen.Last(ChannelNames.OutputPower).Value);
        Assert.Equal(405.0 * 30 / 1024, seen.Last(ChannelNames.BatteryVoltage).Value, 9);
        Assert.Equal(0, seen.Last(ChannelNames.BatteryCurrent).Value, 9);
        Assert.Equal(25, seen.Last(ChannelNames.MotorTemperature).Value, 6);
        Assert.Equal(0xABCD, seen.Last("board.nonce").Value);
        Assert.Equal(0, seen.Last("board.latched").Value);
    }

    [Fact]
    public void No_sample_is_stamped_later_than_the_call_that_writes_it()
    {
        foreach (int piece in new[] { 1, 7, 64, 4096 })
        {
            using Session session = new();
            session.Line.Piece = piece;
            for (int i = 0; i < 400; i++)
            {
                session.Device.Apply(session.Time.Now, Session.Stop);
                TimeSpan now = session.Time.Now;
                session.Device.Read(now, session.Samples);
                Assert.True(session.Samples.All.TrueForAll(s => s.At <= now), $"pieces of {piece} bytes, call {i}");
                session.Samples.All.Clear();
            }
        }
    }

    [Fact]
    public void A_board_that_falls_silent_is_told_after_a_quarter_second()
    {
        using Session session = new();
        session.SpinUp();
        session.Board.Dead = true;
        TimeSpan dead = session.Time.Now;
        Assert.Contains("the board on the test's line has been silent for 2", session.RunToFailure(Session.Driven), StringComparison.Ordinal);
        Assert.InRange(session.Time.Now - dead, TimeSpan.FromMilliseconds(240), TimeSpan.FromMilliseconds(270));
    }

    [Fact]
    public void Garbage_is_no_sign_of_life()
    {
        using Session session = new();
        session.SpinUp();
        session.Line.Mangle = line => [.. line.Reverse()];
        Assert.Contains("has been silent", session.RunToFailure(Session.Driven), StringComparison.Ordinal);
    }

    [Fact]
    public void A_board_that_starts_again_is_told()
    {
        using Session session = new();
        session.SpinUp();
        session.Board.Restart();
        Assert.Contains("has started again in mid-session", session.RunToFailure(Session.Driven), StringComparison.Ordinal);
    }

    [Fact]
    public void A_board_that_starts_again_is_told_even_when_its_greeting_is_lost()
    {
        using Session session = new();
        session.SpinUp();
        session.Line.Mangle = line => line.AsSpan().StartsWith("hello"u8) ? [] : line;
        session.Board.Restart();
        Assert.Contains("has started again in mid-session", session.RunToFailure(Session.Driven), StringComparison.Ordinal);
    }

    [Fact]
    public void A_board_that_holds_other_limits_is_told()
    {
        using Session session = new();
        session.SpinUp();
        session.Board.LoseConfiguration();
        Assert.Contains("no longer holds the limits it was given", session.RunToFailure(Session.Driven), StringComparison.Ordinal);
    }

    [Fact]
    public void A_line_that_comes_twice_is_read_once()
    {
        using Session session = new();
        session.Line.Piece = 4096;
        session.Line.Mangle = line => [.. line, .. line];
        session.Run(Session.Stop, 500);
        TimeSpan[] times = [.. session.Samples.All.Where(s => s.Channel == ChannelNames.BatteryVoltage).Select(s => s.At)];
        Assert.True(times.Length > 200);
        Assert.Equal(times.Distinct().Count(), times.Length);
    }

    [Fact]
    public void A_run_goes_on_through_lines_that_are_spoilt_now_and_then()
    {
        for (int seed = 1; seed <= 20; seed++)
        {
            using Session session = new();
            session.SpinUp();
            Random chance = new(seed);
            session.Line.Mangle = line => chance.Next(5) switch
            {
                0 => line[..chance.Next(line.Length)],
                1 => [.. line.Select(b => chance.Next(40) == 0 ? (byte)chance.Next(256) : b)],
                _ => line,
            };
            session.Run(Session.Driven, 3000);
            Assert.True((session.Board.Pulse, session.Board.Power, session.Board.Latched) == (1500, true, BoardCauses.None), $"seed {seed}");
        }
    }

    [Fact]
    public void Noise_of_any_kind_ends_in_silence_and_in_nothing_else()
    {
        for (int seed = 1; seed <= 30; seed++)
        {
            using Session session = new();
            session.Run(Session.Stop);
            Random chance = new(seed);
            session.Line.Mangle = line =>
            {
                chance.NextBytes(line);
                return line;
            };
            Assert.True(session.RunToFailure(Session.Stop).Contains("has been silent", StringComparison.Ordinal), $"seed {seed}");
        }
    }

    [Fact]
    public void Whichever_read_fails_in_a_run_the_port_is_named_and_nothing_is_written_any_more()
    {
        for (int n = 1; n <= 12; n++)
        {
            using Session session = new();
            session.SpinUp();
            int last = session.Line.Reads + n;
            session.Line.FailRead = at => at == last ? new IOException("the device is gone.") : null;
            Assert.Contains("reading from the board on the test's line failed: the device is gone. Is it still plugged in?", session.RunToFailure(Session.Driven), StringComparison.Ordinal);
            int writes = session.Line.Writes;
            Assert.Throws<DeviceException>(() => session.Device.Apply(session.Time.Now, Session.Stop));
            Assert.Equal(writes, session.Line.Writes);
        }
    }

    [Fact]
    public void Whichever_write_fails_in_a_run_once_or_for_good_nothing_is_written_after_it()
    {
        for (int n = 1; n <= 12; n++)
        {
            using Session session = new();
            session.SpinUp();
            int last = session.Line.Writes + n;
            session.Line.FailWrite = at => at == last || (n % 2 == 0 && at > last) ? new TimeoutException("the write timed out.") : null;
            Assert.Contains("writing to the board on the test's line failed", session.RunToFailure(Session.Driven), StringComparison.Ordinal);
            Assert.Throws<DeviceException>(() => session.Device.Apply(session.Time.Now, Session.Stop));
            Assert.Throws<DeviceException>(() => session.Device.Read(session.Time.Now, session.Samples));
            Assert.Equal(last, session.Line.Writes);
        }
    }

    [Fact]
    public void A_port_that_does_not_close_is_left_behind()
    {
        using ManualResetEventSlim never = new();
        Session session = new();
        session.Line.Closing = () => never.Wait(TestContext.Current.CancellationToken);
        session.Dispose();
        Assert.False(session.Line.Closed);
        never.Set();
    }

    [Fact]
    public void Minutes_of_thought_between_opening_and_the_first_scan_are_no_silence()
    {
        using Session session = new();
        session.Time.Pass(TimeSpan.FromMinutes(5));
        session.SpinUp();
        Assert.True(session.Board.Power);
    }

    [Fact]
    public void A_board_clock_half_a_percent_off_does_not_age_the_readings()
    {
        using Session session = new(before: (board, _) => board.Drift = -0.005);
        session.Run(Session.Stop, 20_000);
        TimeSpan age = session.Time.Now - session.Samples.Last(ChannelNames.BatteryVoltage).At;
        Assert.InRange(age, TimeSpan.Zero, TimeSpan.FromMilliseconds(15));
    }

    [Fact]
    public void Once_it_runs_reading_and_feeding_allocate_next_to_nothing()
    {
        using Session session = new();
        session.SpinUp();
        byte[] heard = Encoding.ASCII.GetBytes(session.Board.Heard[^1]);
        Assert.NotEmpty(heard);
        Quiet quiet = new();
        session.Board.Write = _ => { };
        byte[][] lines = Lines(session);
        // The double allocates, so the lines are made beforehand and only the device's calls are counted.
        long allocated = 0;
        foreach (byte[] line in lines)
        {
            session.Line.Put(line);
            session.Time.Pass(TimeSpan.FromMilliseconds(5));
            session.Line.FailWrite = _ => null;
            long before = GC.GetAllocatedBytesForCurrentThread();
            session.Device.Read(session.Time.Now, quiet);
            allocated += GC.GetAllocatedBytesForCurrentThread() - before;
        }

        Assert.True(quiet.Count > 1000);
        Assert.InRange(allocated / (double)lines.Length, 0, 1);
    }

    private static byte[][] Lines(Session session)
    {
        List<byte[]> lines = [];
        session.Board.Write = lines.Add;
        for (int i = 0; i < 2000; i++)
            session.Board.Tick();
        session.Board.Write = _ => { };
        return [.. lines.Where(l => l.AsSpan().StartsWith("now"u8))];
    }

    private sealed class Quiet : ISampleWriter
    {
        public int Count { get; private set; }

        public void Write(int channel, TimeSpan at, double value, Quality quality = Quality.Good) => Count++;
    }
}
