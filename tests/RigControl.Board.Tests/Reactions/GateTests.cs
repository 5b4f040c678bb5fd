using RigControl.Board.Simulator.Board;
using RigControl.Board.Simulator.Line;
using RigControl.Board.Simulator.Reactions;

namespace RigControl.Board.Tests.Reactions;

/// <summary>The gate on the real firmware: the receiver's pulse goes out while permitted, and no longer.</summary>
public sealed class GateTests(ITestOutputHelper output)
{
    private const ulong ReceiverFrame = 20 * BoardClock.Millisecond;

    /// <summary>What stamping an edge may add, µs.</summary>
    private const double StampError = 20;

    private static Trial Opened(int rate = 400)
    {
        var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(rate));
        Stick(trial, 1004);
        trial.Clear();
        trial.Host.Power = true;
        trial.Host.RunTo("the contactor closes", () => trial.Host.Status!.Bits.HasFlag(StatusBits.Contactor));
        trial.Stand.Turn(Trial.SpinRevolution);
        trial.Host.Gate = true;
        trial.Host.RunTo("the gate opens", () => trial.Host.Status!.Bits.HasFlag(StatusBits.Gate));
        return trial;
    }

    [Trait("Requirement", "SAF-090")]
    [Fact]
    public void Tried_without_power_the_pulse_follows_the_stick_and_the_contactor_stays_open_whatever_is_asked()
    {
        using var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(400));
        Stick(trial, 1004);
        trial.Clear();
        trial.Host.Gate = true;
        trial.Host.RunTo("the gate opens", () => trial.Host.Status!.Bits.HasFlag(StatusBits.Gate));
        Stick(trial, 1300);
        trial.Host.Run(60);
        trial.Stand.Pins.Clear();
        trial.Host.Run(100);
        Assert.InRange(trial.Stand.Pins.Pulses.Count, 30, 50);
        Assert.All(trial.Stand.Pins.Pulses, p => Assert.InRange(p.Microseconds, 1300 - StampError, 1300 + StampError));
        trial.Host.Power = true;
        trial.Host.Run(30);
        Assert.Contains(trial.Host.Heard, line => line.Word == "no" && line.Fields[2] == "order");
        Assert.False(trial.Host.Status!.Bits.HasFlag(StatusBits.Contactor));
        trial.Host.Power = false;
        trial.Stand.Board.SetReceiver(ReceiverFrame, 0);
        trial.Host.RunTo("the board trips", () => trial.Host.Status!.Latched.HasFlag(Causes.Receiver));
        Assert.False(trial.Host.Status!.Bits.HasFlag(StatusBits.Contactor));
    }

    private static void Stick(Trial trial, double microseconds) =>
        trial.Stand.Board.SetReceiver(ReceiverFrame, (ulong)(microseconds * BoardClock.Microsecond));

    [Fact]
    public void The_receivers_pulse_goes_out_within_the_controllers_range()
    {
        using Trial trial = Opened();
        foreach ((double given, double expected) in new[] { (1300.0, 1300.0), (1750, 1750), (2150, 2000), (900, 1000) })
        {
            Stick(trial, given);
            trial.Host.Run(60);
            trial.Stand.Pins.Clear();
            trial.Host.Run(100);
            Assert.InRange(trial.Stand.Pins.Pulses.Count, 30, 50);
            Assert.All(trial.Stand.Pins.Pulses, p => Assert.InRange(p.Microseconds, expected - StampError, expected + StampError));
            Assert.Equal(given == 1750 ? "spin" : trial.Host.Status!.Mode, trial.Host.Status!.Mode);
        }
    }

    [Trait("Requirement", "SAF-066")]
    [Theory]
    [InlineData(50)]
    [InlineData(400)]
    public void A_lost_radio_stops_the_output_within_100_ms_and_a_frame(int rate)
    {
        using Trial trial = Opened(rate);
        Stick(trial, 1600);
        trial.Host.Run(100);
        ulong last = trial.Stand.Board.Cycle;
        trial.Stand.Board.SetReceiver(ReceiverFrame, 0);
        trial.Stand.Pins.Clear();
        trial.Host.RunTo("the board trips", () => trial.Host.Status!.Latched.HasFlag(Causes.Receiver));
        trial.Host.Run(60);
        Pulse stop = trial.Stand.Pins.Pulses.Find(p => Math.Abs(p.Microseconds - 1000) < 1);
        double took = BoardClock.Milliseconds(stop.Fall - last);
        output.WriteLine($"stop pulse {took:0.0} ms after the radio was lost at {rate} Hz");
        Assert.InRange(took, 0.001, 100 + 20 + 1000.0 / rate + 2);
        Stick(trial, 1600);
        trial.Stand.Pins.Clear();
        trial.Host.Run(200);
        Assert.All(trial.Stand.Pins.Pulses, p => Assert.Equal(1000, p.Microseconds));
    }

    [Trait("Requirement", "SAF-066")]
    [Fact]
    public void A_lid_that_opens_closes_the_gate_with_the_next_frame()
    {
        using Trial trial = Opened();
        Stick(trial, 1800);
        trial.Host.Run(100);
        trial.Stand.Pins.Clear();
        ulong at = trial.Stand.Board.Cycle;
        trial.Stand.Lid(closed: false);
        trial.Host.Run(60);
        Pulse stop = trial.Stand.Pins.Pulses.Find(p => Math.Abs(p.Microseconds - 1000) < 1);
        Assert.InRange(BoardClock.Milliseconds(stop.Fall - at), 0.001, 4.5);
    }

    [Trait("Requirement", "SAF-066")]
    [Theory]
    [InlineData(0)]
    [InlineData(1100)]
    [InlineData(1500)]
    public void A_stick_off_stop_or_a_silent_receiver_keeps_the_gate_shut(double stick)
    {
        var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(400));
        using (trial)
        {
            Stick(trial, stick);
            trial.Clear();
            trial.Host.Power = true;
            trial.Host.RunTo("the contactor closes", () => trial.Host.Status!.Bits.HasFlag(StatusBits.Contactor));
            trial.Stand.Pins.Clear();
            trial.Host.Gate = true;
            trial.Host.Run(80);
            Assert.Contains(trial.Host.Heard, line => line.Word == "no" && line.Fields[2] == "receiver");
            Assert.All(trial.Stand.Pins.Pulses, p => Assert.Equal(1000, p.Microseconds));
        }
    }
}
