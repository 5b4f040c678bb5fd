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
        Assert.InRange(trial.Stand.Pins.Pulses.Count, 30, 41);
        Assert.All(trial.Stand.Pins.Pulses, p => Assert.InRange(p.Microseconds, 999, 1001));
    }

    [Trait("Requirement", "SAF-097")]
    [Fact]
    public void A_stop_pressed_meanwhile_takes_the_power_and_puts_out_stop()
    {
        using Trial trial = Ceased();
        trial.Stand.Stop(clear: false);
        trial.Host.RunTo("the board trips", () => trial.Host.Status!.Latched.HasFlag(Causes.Stop));
        trial.Host.Run(100);
        Assert.False(trial.Host.Status!.Bits.HasFlag(StatusBits.Power));
        Assert.InRange(trial.Stand.Pins.Pulses.Count, 30, 50);
        Assert.All(trial.Stand.Pins.Pulses, p => Assert.InRange(p.Microseconds, 999, 1001));
    }

    [Trait("Requirement", "SAF-097")]
    [Fact]
    public void A_host_that_falls_silent_meanwhile_loses_the_power()
    {
        using Trial trial = Ceased();
        trial.Host.Speaking = false;
        trial.Host.Run(300);
        Assert.True(trial.Host.Status!.Latched.HasFlag(Causes.Silent));
        Assert.False(trial.Host.Status!.Bits.HasFlag(StatusBits.Power));
        Assert.All(trial.Stand.Pins.Pulses, p => Assert.InRange(p.Microseconds, 999, 1001));
    }
}
