using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Kernel;

/// <summary>
/// Every pair of state and trigger that is not permitted, with the reason. A test holds this list and the transition table
/// together: each pair stands in exactly one of them.
/// </summary>
public static class RefusedTransitions
{
    public static IReadOnlyDictionary<(RigState State, Trigger Trigger), string> Reasons { get; } = Build();

    private static Dictionary<(RigState State, Trigger Trigger), string> Build()
    {
        Dictionary<(RigState, Trigger), string> list = new()
        {
            [(RigState.SafeStop, Trigger.Trip)] = "already stopped; a further cause is latched without a transition",
            [(RigState.SafeStop, Trigger.Arm)] = "a reset comes first",
            [(RigState.Idle, Trigger.Reset)] = "nothing is latched",
            [(RigState.Arming, Trigger.Reset)] = "nothing is latched",
            [(RigState.Arming, Trigger.Arm)] = "already arming",
            [(RigState.Arming, Trigger.Level)] = "the output has not risen",
            [(RigState.Arming, Trigger.Release)] = "there is no output to let go",
            [(RigState.Arming, Trigger.Rested)] = "nothing has turned; arming ends by rising or by a trip",
            [(RigState.SpinUp, Trigger.Rise)] = "already rising; the next level is another step in the same state",
            [(RigState.SpinUp, Trigger.Rested)] = "the output must be let go first",
            [(RigState.Hold, Trigger.Level)] = "already held; the next hold is another step in the same state",
            [(RigState.Hold, Trigger.Rested)] = "the output must be let go first",
            [(RigState.CoastDown, Trigger.Rise)] = "a running-down rotor is not driven again without arming",
            [(RigState.CoastDown, Trigger.Level)] = "there is no level to hold",
            [(RigState.CoastDown, Trigger.Release)] = "already let go",
        };
        foreach (RigState state in new[] { RigState.SafeStop, RigState.Idle })
        {
            foreach (Trigger trigger in new[] { Trigger.Rise, Trigger.Level, Trigger.Release, Trigger.Rested })
                list[(state, trigger)] = "nothing is energised here";
        }

        foreach (RigState state in new[] { RigState.SpinUp, RigState.Hold, RigState.CoastDown })
        {
            list[(state, Trigger.Reset)] = "nothing is latched";
            list[(state, Trigger.Arm)] = "already armed";
        }

        foreach (RigState state in Enum.GetValues<RigState>())
            list[(state, Trigger.None)] = "nothing happened";
        return list;
    }
}
