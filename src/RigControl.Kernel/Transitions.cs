using RigControl.Model.Records;
using RigControl.Model.Rig;
using Stateless;

namespace RigControl.Kernel;

/// <summary>
/// The transition table. It is written once, as a Stateless machine; the scan looks it up in a flat copy taken from that
/// machine at start, since a lookup allocates nothing and is the same for every thread (docs/decisions/0002).
/// </summary>
public static class Transitions
{
    private static readonly int Triggers = Enum.GetValues<Trigger>().Length;
    private static readonly RigState?[] Table = Flatten();

    /// <summary>The state a trigger leads to, or null where it is not permitted.</summary>
    public static RigState? Next(RigState state, Trigger trigger) => Table[(int)state * Triggers + (int)trigger];

    /// <summary>The machine itself, in immediate mode on a state of its own, for the diagram and the tests.</summary>
    public static StateMachine<RigState, Trigger> Machine(RigState initial)
    {
        RigState state = initial;
        StateMachine<RigState, Trigger> machine = new(() => state, next => state = next, FiringMode.Immediate);

        machine.Configure(RigState.SafeStop)
            .Permit(Trigger.Reset, RigState.Idle);

        machine.Configure(RigState.Idle)
            .Permit(Trigger.Arm, RigState.Arming)
            .Permit(Trigger.Trip, RigState.SafeStop);

        machine.Configure(RigState.Arming)
            .Permit(Trigger.Rise, RigState.SpinUp)
            .Permit(Trigger.Trip, RigState.SafeStop);

        machine.Configure(RigState.SpinUp)
            .Permit(Trigger.Level, RigState.Hold)
            .Permit(Trigger.Release, RigState.CoastDown)
            .Permit(Trigger.Trip, RigState.SafeStop);

        machine.Configure(RigState.Hold)
            .Permit(Trigger.Rise, RigState.SpinUp)
            .Permit(Trigger.Release, RigState.CoastDown)
            .Permit(Trigger.Trip, RigState.SafeStop);

        machine.Configure(RigState.CoastDown)
            .Permit(Trigger.Rested, RigState.Idle)
            .Permit(Trigger.Trip, RigState.SafeStop);

        return machine;
    }

    private static RigState?[] Flatten()
    {
        RigState[] states = Enum.GetValues<RigState>();
        RigState?[] table = new RigState?[states.Length * Triggers];
        foreach (RigState state in states)
        {
            foreach (Trigger trigger in Enum.GetValues<Trigger>())
            {
                StateMachine<RigState, Trigger> machine = Machine(state);
                if (!machine.CanFire(trigger))
                    continue;
                machine.Fire(trigger);
                table[(int)state * Triggers + (int)trigger] = machine.State;
            }
        }

        return table;
    }
}
