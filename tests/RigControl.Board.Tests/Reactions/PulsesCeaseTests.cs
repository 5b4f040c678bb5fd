using RigControl.Board.Simulator.Line;
using RigControl.Board.Simulator.Reactions;

namespace RigControl.Board.Tests.Reactions;

/// <summary>Pulses that cease on demand on the real firmware: none comes out, the power stays, and every stop is as good as ever.</summary>
public sealed class PulsesCeaseTests
{
    // ms; two hundred frames of 2.5 ms.
    private const double Long = 500;

    private static Trial Ceased()
    {
        var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(400));
        trial.Spin();
        trial.Host.Pulse = 0;
        trial.Host.RunTo("the last pulse is over", () => trial.Host.Status!.Mode == "live");
        trial.Host.Run(10);
        trial.Stand.Pins.Clear();
        return trial;
    }

    [Trait("Requirement", "SAF-097")]
    [Fact]
    public void No_pulse_comes_out_and_the_power_stays_for_as_long_as_it_is_asked_for()
    {
        using Trial trial = Ceased();
        trial.Host.Run(Long);
        Assert.Empty(trial.Stand.Pins.Pulses);
        Assert.True(trial.Host.Status!.Bits.HasFlag(StatusBits.Contactor));
        Assert.Equal((Causes.None, "live"), (trial.Host.Status.Latched, trial.Host.Status.Mode));
    }

    [Trait("Requirement", "SAF-097")]
    [Fact]
    public void Only_stop_may_follow_and_comes_out_again()
    {
        using Trial trial = Ceased();
        trial.Host.Pulse = 1500;
        trial.Host.Run(20);
        Assert.Contains(trial.Host.Heard, line => line.Word == "no" && line.Fields[2] == "order");
        Assert.Empty(trial.Stand.Pins.Pulses);
        trial.Host.Pulse = 1000;
        trial.Host.Run(100);
        AssertStopPulses(trial);
    }

    [Trait("Requirement", "SAF-097")]
    [Fact]
    public void A_stop_pressed_meanwhile_takes_the_power_and_puts_out_stop()
    {
        using Trial trial = Ceased();
        trial.Stand.Stop(clear: false);
        AssertStopped(trial, Causes.Stop, 100);
    }

    [Trait("Requirement", "SAF-097")]
    [Fact]
    public void A_host_that_falls_silent_meanwhile_loses_the_power()
    {
        using Trial trial = Ceased();
        trial.Host.Speaking = false;
        // It is heard until 100 ms after its last line.
        AssertStopped(trial, Causes.Silent, 200);
    }

    private static void AssertStopped(Trial trial, Causes cause, double within)
    {
        trial.Host.Run(within);
        Assert.True(trial.Host.Status!.Latched.HasFlag(cause));
        Assert.False(trial.Host.Status.Bits.HasFlag(StatusBits.Power));
        AssertStopPulses(trial);
    }

    // Of the last 100 ms or so.
    private static void AssertStopPulses(Trial trial)
    {
        Assert.InRange(trial.Stand.Pins.Pulses.Count, 30, 45);
        Assert.All(trial.Stand.Pins.Pulses, p => Assert.InRange(p.Microseconds, 999, 1001));
    }
}
