using RigControl.Board.Simulator.Board;
using RigControl.Board.Simulator.Line;
using RigControl.Board.Simulator.Reactions;
using RigControl.Physics;

namespace RigControl.Board.Tests.Reactions;

/// <summary>The second output's pulses on the real firmware: whole, as wide as demanded within what interrupts add, and stopped with the first.</summary>
public sealed class SecondOutputTests(ITestOutputHelper output)
{
    private const double Coarseness = 4;

    /// <summary>What other interrupts may add to or take from an edge, µs.</summary>
    private const double EdgeWait = 30;

    private static BoardConfiguration Two(int rate) => ReactionTable.Configuration(rate) with { Second = (1500, 1000, 2000) };

    [Theory]
    [InlineData(50, 1ul)]
    [InlineData(400, 2ul)]
    public void Every_pulse_of_the_second_output_is_one_that_was_demanded(int rate, ulong seed)
    {
        output.WriteLine($"seed {seed}");
        var chance = new SplitMix(seed);
        using var trial = new Trial(Programs.Firmware, Two(rate));
        trial.Spin();
        trial.Stand.Pins.Clear();
        uint lost = trial.Stand.Board.BytesLost;
        List<int> demanded = [1500];
        for (int n = 0; n < 60; n++)
        {
            trial.Host.Second = 1000 + (int)(chance.Next() % 1001);
            demanded.Add(trial.Host.Second);
            trial.Host.Run(5 + chance.Next() % 20000 / 1000.0);
        }

        List<Pulse> second = trial.Stand.Pins.SecondPulses;
        Assert.InRange(second.Count, rate / 4, 2 * rate);
        double worst = second.Max(p => demanded.Min(d => Math.Abs(p.Microseconds - d)));
        output.WriteLine($"{second.Count} pulses at {rate} Hz, at most {worst:0.0} us off");
        Assert.InRange(worst, 0, Coarseness + EdgeWait);
        Assert.All(trial.Stand.Pins.Pulses, pulse => Assert.Equal(Trial.SpinPulse, pulse.Microseconds));
        // Now and then every interrupt comes at once, and a byte of some seven thousand is lost with its line, which the host repeats.
        Assert.InRange(trial.Stand.Board.BytesLost - lost, 0u, 2u);
    }

    [Fact]
    public void A_board_with_one_output_keeps_the_second_pin_low()
    {
        using var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(400));
        trial.Spin();
        trial.Host.Run(50);
        Assert.Empty(trial.Stand.Pins.SecondPulses);
        Assert.False(trial.Stand.Board.Output(BoardPin.SecondPulse));
    }

    [Trait("Requirement", "SAF-065")]
    [Theory]
    [InlineData(50)]
    [InlineData(400)]
    public void A_lid_that_opens_brings_both_outputs_to_their_stops_with_the_next_frames(int rate)
    {
        using var trial = new Trial(Programs.Firmware, Two(rate));
        for (int phase = 0; phase < 8; phase++)
        {
            trial.Spin();
            trial.Host.Second = 1900;
            trial.Host.Run(60 + phase * 0.37);
            trial.Stand.Pins.Clear();
            ulong at = trial.Stand.Board.Cycle;
            trial.Stand.Lid(closed: false);
            trial.Host.Run(60);
            List<Pulse> after = trial.Stand.Pins.SecondPulses.FindAll(p => p.Rise > at + trial.Frame + BoardClock.Cycles(0.0005));
            Assert.NotEmpty(after);
            Assert.All(after, p => Assert.InRange(p.Microseconds, 1500 - Coarseness - EdgeWait, 1500 + EdgeWait));
        }
    }

    [Trait("Requirement", "SAF-065")]
    [Fact]
    public void A_hanging_main_loop_lets_go_of_the_second_output_too()
    {
        using var trial = new Trial(Programs.Firmware, Two(400));
        trial.Spin();
        trial.Host.Second = 1900;
        trial.Host.Run(30);
        trial.Stand.Pins.Clear();
        ulong at = trial.Stand.Board.Cycle;
        trial.Stand.Board.Hang();
        trial.Host.Run(150);
        Assert.InRange(BoardClock.Milliseconds(trial.Stand.Pins.SecondPulses[^1].Fall - at), 0.001, 80);
        Assert.False(trial.Stand.Board.Output(BoardPin.SecondPulse));
    }
}
