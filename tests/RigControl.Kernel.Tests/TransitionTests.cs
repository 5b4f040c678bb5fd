using Stateless;

namespace RigControl.Kernel.Tests;

/// <summary>The transition table, its flat copy, its refusals and its page.</summary>
public class TransitionTests
{
    public static TheoryData<RigState, Trigger> EveryPair()
    {
        TheoryData<RigState, Trigger> data = [];
        foreach (RigState state in Enum.GetValues<RigState>())
        {
            foreach (Trigger trigger in Enum.GetValues<Trigger>())
                data.Add(state, trigger);
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(EveryPair))]
    public void Every_pair_of_state_and_trigger_is_either_permitted_or_refused_with_a_reason(RigState state, Trigger trigger)
    {
        bool permitted = Transitions.Next(state, trigger) is not null;
        bool refused = RefusedTransitions.Reasons.TryGetValue((state, trigger), out string? reason);
        Assert.True(permitted ^ refused, $"{state} and {trigger}: permitted {permitted}, refused {refused}");
        Assert.True(permitted || reason!.Length > 10);
    }

    [Theory]
    [MemberData(nameof(EveryPair))]
    public void The_flat_table_says_what_the_machine_does(RigState state, Trigger trigger)
    {
        StateMachine<RigState, Trigger> machine = Transitions.Machine(state);
        RigState? next = Transitions.Next(state, trigger);
        if (next is null)
        {
            Assert.Throws<InvalidOperationException>(() => machine.Fire(trigger));
            Assert.Equal(state, machine.State);
            return;
        }

        machine.Fire(trigger);
        Assert.Equal(next, machine.State);
    }

    [Trait("Requirement", "SAF-002")]
    [Fact]
    public void Safe_stop_is_left_only_by_a_reset_and_only_to_idle()
    {
        Trigger[] ways = [.. Enum.GetValues<Trigger>().Where(t => Transitions.Next(RigState.SafeStop, t) is not null)];
        Assert.Equal([Trigger.Reset], ways);
        Assert.Equal(RigState.Idle, Transitions.Next(RigState.SafeStop, Trigger.Reset));
    }

    [Fact]
    public void A_trip_leads_to_safe_stop_from_everywhere_else() =>
        Assert.All(Enum.GetValues<RigState>().Where(s => s != RigState.SafeStop), s => Assert.Equal(RigState.SafeStop, Transitions.Next(s, Trigger.Trip)));

    [Fact]
    public void The_output_rises_only_from_arming_or_from_a_level_held() => Assert.Equal(
        [RigState.Arming, RigState.Hold], Enum.GetValues<RigState>().Where(s => Transitions.Next(s, Trigger.Rise) == RigState.SpinUp));

    [Fact]
    public void A_trigger_that_is_not_permitted_stops_the_rig()
    {
        KernelState state = new() { State = RigState.CoastDown };
        ScanRecord record = default;
        Sequence.Fire(ref state, Trigger.Rise, ref record);
        Assert.Equal((RigState.SafeStop, TripCause.OutputGuard, Trigger.Trip), (state.State, state.Causes, record.Fired));
    }

    [Fact]
    public void The_page_of_states_is_the_machine()
    {
        string file = Path.Combine(Repository.Root, "docs", "state-diagram.md");
        if (Environment.GetEnvironmentVariable("UPDATE_DOCS") == "1")
            File.WriteAllText(file, StateDiagram.Markdown());
        Assert.Equal(StateDiagram.Markdown(), File.ReadAllText(file).ReplaceLineEndings("\n"));
    }

    [Fact]
    public void The_page_shows_every_permitted_pair_once_and_every_refused_one()
    {
        string[] lines = StateDiagram.Markdown().Split('\n');
        foreach (RigState state in Enum.GetValues<RigState>())
        {
            foreach (Trigger trigger in Enum.GetValues<Trigger>().Where(t => t != Trigger.None))
            {
                int arrows = lines.Count(l => l.StartsWith($"    {state} --> ") && l.EndsWith($": {trigger}"));
                int rows = lines.Count(l => l.StartsWith($"| {state} | {trigger} |"));
                Assert.Equal(Transitions.Next(state, trigger) is null ? (0, 1) : (1, 0), (arrows, rows));
            }
        }
    }
}
