using RigControl.Board.Simulator.Board;
using RigControl.Board.Simulator.Line;
using RigControl.Board.Simulator.Reactions;
using RigControl.Physics;

namespace RigControl.Board.Tests.Reactions;

/// <summary>Every pulse that comes out is one that was demanded, whole.</summary>
public sealed class PulseTruthTests(ITestOutputHelper output)
{
    // Of the four counts those of lines that the board refused, and of its own that it dropped.
    private const uint RefusedOrDropped = 0x00FF00FF;

    private const int Steps = 150;

    [Trait("Requirement", "SAF-036")]
    [Theory]
    [InlineData(50, 1ul)]
    [InlineData(217, 2ul)]
    [InlineData(400, 3ul)]
    public void Demands_that_change_at_random_moments_never_cut_a_pulse_or_invent_one(int rate, ulong seed)
    {
        output.WriteLine($"seed {seed}");
        var chance = new SplitMix(seed);
        using var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(rate));
        trial.Spin();
        trial.Stand.Pins.Clear();
        var demanded = new HashSet<double> { Trial.SpinPulse };
        for (int n = 0; n < Steps; n++)
        {
            trial.Host.Pulse = 1000 + (int)(chance.Next() % 1001);
            demanded.Add(trial.Host.Pulse);
            trial.Host.Run(1 + chance.Next() % 4000 / 1000.0);
        }

        Assert.Equal("spin", trial.Host.Status!.Mode);
        Assert.InRange(trial.Stand.Pins.Pulses.Count, rate / 8, rate);
        Assert.All(trial.Stand.Pins.Pulses, pulse => Assert.Contains(pulse.Microseconds, demanded));
        AssertRegular(trial.Stand.Pins.Pulses, trial.Frame);
    }

    // Now and then every interrupt comes at once and a byte of the host is lost: one in some twenty thousand was measured, with its line, which
    // is said again 5 ms later.
    [Fact]
    public void At_full_talk_while_spinning_no_line_of_the_board_is_spoilt_and_at_most_one_in_two_hundred_of_the_host_s()
    {
        using var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(400));
        trial.Spin();
        (uint lost, int spoilt, uint errors) = (trial.Stand.Board.BytesLost, trial.Host.Spoilt, trial.Host.Status!.Errors);
        ushort first = trial.Host.Status.Line.Sequence;
        trial.Host.Run(10_000);
        output.WriteLine($"{trial.Stand.Board.BytesLost - lost} bytes lost in ten seconds");
        Assert.InRange(trial.Stand.Board.BytesLost - lost, 0u, 10u);
        Assert.Equal(errors & RefusedOrDropped, trial.Host.Status.Errors & RefusedOrDropped);
        Assert.Equal((spoilt, "spin", Causes.None), (trial.Host.Spoilt, trial.Host.Status.Mode, trial.Host.Status.Latched));
        Assert.InRange(trial.Host.Status.Line.Sequence - first, 1950, 2150);
        Assert.Equal(0u, trial.Stand.Board.EdgesLost);
    }

    [Fact]
    public void The_board_reads_back_the_pulse_that_the_pin_shows()
    {
        using var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(400));
        trial.Spin();
        trial.Host.Run(50);
        Assert.InRange(trial.Host.Status!.Measured, Trial.SpinPulse - 10u, Trial.SpinPulse + 10u);
        Assert.InRange(trial.Host.Status.Period, (uint)Trial.SpinRevolution - 1, (uint)Trial.SpinRevolution + 1);
    }

    private static void AssertRegular(List<Pulse> pulses, ulong frame)
    {
        for (int n = 1; n < pulses.Count; n++)
            Assert.InRange(pulses[n].Rise - pulses[n - 1].Rise, frame - 8, frame + 8);
    }
}
