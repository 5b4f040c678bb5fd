using System.Text;
using RigControl.Board.Simulator.Board;
using RigControl.Board.Simulator.Line;
using RigControl.Board.Simulator.Reactions;

namespace RigControl.Board.Tests.Reactions;

/// <summary>Lock-step means that the same run is the same to the last byte and the last cycle.</summary>
public sealed class RepeatabilityTests
{
    [Fact]
    public void The_same_run_twice_gives_the_same_bytes_and_the_same_edges() => Assert.Equal(Transcript(0.4), Transcript(0.4));

    [Fact]
    public void An_event_at_another_moment_gives_another_run() => Assert.NotEqual(Transcript(0.4), Transcript(0.6));

    private static string Transcript(double phase)
    {
        using var trial = new Trial(Programs.Firmware, ReactionTable.Configuration(400));
        trial.Spin();
        Measurement measured = trial.Measure(Provocation.LidOpens, phase, hostAlive: true);
        var text = new StringBuilder(measured.ToString());
        text.AppendJoin('\n', trial.Host.Heard).Append(trial.Host.Status!.Line);
        text.AppendJoin(' ', trial.Stand.Pins.Pulses).AppendJoin(' ', trial.Stand.Pins.PowerRises);
        return text.Append(trial.Stand.Board.Cycle).ToString();
    }
}
