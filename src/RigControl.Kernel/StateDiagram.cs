using System.Text;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using Stateless;

namespace RigControl.Kernel;

/// <summary>The transition machine as a page to read: <c>docs/state-diagram.md</c>, which a test holds equal to it.</summary>
public static class StateDiagram
{
    /// <summary>The page: a Mermaid diagram, then every refused pair with its reason. Lines end with a line feed.</summary>
    public static string Markdown()
    {
        StringBuilder page = new();
        page.Append("# States of the rig\n\n");
        page.Append("Written from the transition table by the kernel's tests (`UPDATE_DOCS=1`); do not edit.\n\n");
        page.Append("```mermaid\nstateDiagram-v2\n");
        page.Append($"    [*] --> {default(RigState)}\n");
        foreach ((RigState from, Trigger trigger, RigState to) in Permitted(Transitions.Machine(default)))
            page.Append($"    {from} --> {to}: {trigger}\n");
        page.Append("```\n\n## Refused\n\n");
        page.Append("Every other pair, and why it leads nowhere.\n\n| state | trigger | reason |\n|---|---|---|\n");
        foreach (((RigState state, Trigger trigger), string reason) in RefusedTransitions.Reasons.OrderBy(r => r.Key))
        {
            if (trigger != Trigger.None)
                page.Append($"| {state} | {trigger} | {reason} |\n");
        }

        return page.ToString();
    }

    /// <summary>The transitions that a machine was configured with, in the order of states and triggers.</summary>
    public static IReadOnlyList<(RigState From, Trigger Trigger, RigState To)> Permitted(StateMachine<RigState, Trigger> machine)
    {
        var edges =
            from state in machine.GetInfo().States
            from edge in state.FixedTransitions
            select (From: state.UnderlyingState, By: edge.Trigger.UnderlyingTrigger, To: edge.DestinationState.UnderlyingState);
        return [.. edges.Select(e => ((RigState)e.From, (Trigger)e.By, (RigState)e.To)).Order()];
    }
}
