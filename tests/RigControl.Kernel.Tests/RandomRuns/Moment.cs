namespace RigControl.Kernel.Tests.RandomRuns;

/// <summary>One scan of a random run: what went in, by the test's own book, and what came out.</summary>
internal sealed record Moment
{
    /// <summary>Time in which the scans followed each other, s: leaps of the clock do not count.</summary>
    public required double Seen { get; init; }

    /// <summary>Lowest and highest speed read, rpm; null where it was Bad or not a number.</summary>
    public required (double Lowest, double Highest)? Speed { get; init; }

    /// <summary>Shortest and longest pulse of the receiver, us; null where it was Bad.</summary>
    public required (double Lowest, double Highest)? Receiver { get; init; }

    /// <summary>Whether what can be read of bolt and lid read shut.</summary>
    public required bool Shut { get; init; }

    public required DemandAction[] Asked { get; init; }

    public required Command[] Commands { get; init; }

    public required Receipt[] Receipts { get; init; }

    public required RigState Before { get; init; }

    public required RigState State { get; init; }

    public required int Step { get; init; }

    public required uint Latched { get; init; }

    public required TripCause Causes { get; init; }

    public required OutputImage Outputs { get; init; }

    public bool Accepted(CommandKind kind) =>
        Receipts.Any(r => r.Kind == kind && r.Refusal == RefusalReason.None && (kind == CommandKind.Stop || r.Source == CommandSource.Bench));
}
