namespace RigControl.Kernel.Tests.Exploration;

/// <summary>A walk through a world that mostly does what leads on, so that it comes everywhere, and now and then anything.</summary>
internal static class Walk
{
    public static Move Next(World world, in KernelState state, Random random)
    {
        Move any = world.Moves[random.Next(world.Moves.Length)];
        if (random.Next(60) == 0)
            return any;
        (CommandKind, CommandSource)? act = state switch
        {
            _ when Standstill.AwaitsLook(world.Configuration, state) => (CommandKind.Look, CommandSource.Bench),
            { State: RigState.SafeStop } => (CommandKind.Reset, CommandSource.Bench),
            { State: RigState.Idle } => (CommandKind.Arm, CommandSource.Bench),
            { Phase: ArmingPhase.AwaitingStart } => (CommandKind.Start, CommandSource.Bench),
            _ => null,
        };
        CompiledStep step = world.Configuration.Steps[state.Step];
        // Before the first arm of a verification the lid is opened; a gate opens on a stick at stop; behind a rise its reading says live, until what is provoked comes.
        bool isLive = state.State is RigState.SpinUp or RigState.Hold;
        bool provokes = isLive && step.Provocation is { Expected: >= 0 } && random.Next(4) == 0;
        bool isOpen = state.State == RigState.Idle && step.Until.Length > 0;
        return any with { Speed = isLive && !step.Unpowered ? 100 : 0, Shut = !isOpen, Stopped = !isLive, Stops = provokes && step.Provocation!.Expected == 0, Cuts = provokes && step.Provocation!.Expected == 1, Proven = true, Command = act, Pace = Pace.OnTime, Link = LinkFate.Whole, Stick = isLive ? any.Stick : Move.AtStop };
    }
}
