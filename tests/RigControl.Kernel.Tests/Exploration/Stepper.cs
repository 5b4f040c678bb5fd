namespace RigControl.Kernel.Tests.Exploration;

/// <summary>One scan of a world, and every scan from one of its states.</summary>
internal sealed class Stepper(World world, Stepper.Tamper? tamper = null)
{
    /// <summary>Changes a scan's record on its way out.</summary>
    public delegate void Tamper(ref ScanRecord record);

    /// <summary>Makes every move from a state, holds each against the rules, and notes where it led.</summary>
    public void Leave(byte[] packed, int from, Leaving leaving)
    {
        Node before = default, after = default;
        before.Unpack(packed);
        InputImage image = default;
        ScanRecord record = default;
        for (int m = 0; m < world.Moves.Length && leaving.Broken is null; m++)
        {
            after.Unpack(packed);
            Step(ref after, world.Moves[m], ref image, ref record);
            leaving.Scans++;
            leaving.Passages.Add(Passage.Of(record));
            if (Rules.Broken(new Seen(world, before, world.Moves[m], record, after.Wire)) is { } rule)
                leaving.Broken = (rule, record.State, from, m);
            TimeSpan? atEnd = Canonical.Make(world.Configuration, ref after.Kernel);
            leaving.Add(after, from, m);
            if (atEnd is not { } began)
                continue;
            after.Kernel.PhaseSince = began;
            leaving.Add(after, from, m);
        }
    }

    /// <summary>One scan: the readings, the kernel, and the other end of the line.</summary>
    public void Step(ref Node node, Move move, ref InputImage image, ref ScanRecord record)
    {
        if (move.Link == LinkFate.HostRestarts)
        {
            node.Kernel = default;
            node.Wire.Reopen();
        }

        world.Into(move, node, ref image);
        Span<Command> commands = stackalloc Command[1];
        if (move.Command is { } command)
            commands[0] = new Command(1, command.Kind, command.Source);
        ScanKernel.Scan(world.Configuration, ref node.Kernel, new ScanInput(node.Kernel.Now + move.After, image, commands[..(move.Command is null ? 0 : 1)]), ref record);
        tamper?.Invoke(ref record);
        if (world.IsLinked)
            node.Wire.Follow(record.Outputs, move);
    }
}
