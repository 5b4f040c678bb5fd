namespace RigControl.Kernel.Tests.Exploration;

/// <summary>What docs/evidence/exploration.md names as not in these worlds is not in them; what comes in is taken off that page.</summary>
public class NotExploredTests
{
    private static readonly (CommandKind Kind, CommandSource Source)[] Given =
        [.. World.All.SelectMany(w => w.Moves).Select(m => m.Command).OfType<(CommandKind, CommandSource)>().Distinct()];

    [Fact]
    public void Nobody_answers_or_marks_and_no_step_asks()
    {
        Assert.DoesNotContain(Given, g => g.Kind is CommandKind.Answer or CommandKind.Mark);
        Assert.DoesNotContain(StepsOfAll(), s => s.Question is not null);
    }

    [Fact]
    public void From_the_network_come_a_stop_and_a_start_and_from_the_host_nothing() =>
        Assert.Equal([CommandKind.Stop, CommandKind.Start], Given.Where(g => g.Source != CommandSource.Bench).Select(g => g.Kind).Order());

    [Fact]
    public void No_world_reads_its_power() => Assert.All(World.All, w => Assert.True(w.Configuration.PowerChannel < 0));

    // Only a board's latch reads 2, which alone makes an interlock here refuse.
    [Fact]
    public void An_interlock_only_refuses_behind_a_link()
    {
        foreach (World world in World.All)
            Assert.Equal(world.IsLinked, world.Moves.Any(m => Refuses(world, m)));
    }

    [Fact]
    public void No_verification_here_ceases_pulses_rests_or_lowers_a_limit() => Assert.DoesNotContain(
        StepsOfAll(), s => s.Provocation is { } p && (p.Manner is ProvocationManner.CeasedPulses or ProvocationManner.Rest || p.Lowered is not null));

    [Fact]
    public void Nothing_has_to_hold_for_a_time_and_no_second_output_is_driven() => Assert.All(StepsOfAll(), s =>
    {
        Assert.Equal(0, s.SecondThrottle);
        Assert.All([.. s.Until, .. s.Provocation?.Evidence ?? []], c => Assert.Equal(TimeSpan.Zero, c.For));
    });

    private static IEnumerable<CompiledStep> StepsOfAll() => World.All.SelectMany(w => Enumerable.Range(0, w.Configuration.StepCount).Select(w.Configuration.StepAt));

    private static bool Refuses(World world, Move move)
    {
        Node latched = new() { Wire = Wire.Opened };
        latched.Kernel.Phase = ArmingPhase.Preparing;
        latched.Kernel.State = RigState.Arming;
        InputImage image = default;
        world.Into(move, latched, ref image);
        return new[] { World.Stops, World.Cuts, World.Proof }.Any(c => ValueOf(image, c) == 2);
    }

    private static double ValueOf(InputImage image, int channel) => image[channel].Minimum;
}
