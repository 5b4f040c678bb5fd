namespace RigControl.Kernel.Tests.Exploration;

/// <summary>What may enter a scan in each world: every combination of what that world's rules can tell apart.</summary>
internal static class Moves
{
    private static readonly bool[] Both = [true, false];
    private static readonly bool[] No = [false];
    private static readonly bool[] Yes = [true];

    private static readonly (CommandKind, CommandSource)?[] Acts =
    [
        null, (CommandKind.Stop, CommandSource.Network), (CommandKind.Reset, CommandSource.Bench), (CommandKind.Arm, CommandSource.Bench), (CommandKind.Start, CommandSource.Bench),
    ];

    private static readonly (CommandKind, CommandSource)?[] OtherActs =
        [(CommandKind.Unlock, CommandSource.Bench), (CommandKind.Lock, CommandSource.Bench), (CommandKind.Look, CommandSource.Bench), (CommandKind.Start, CommandSource.Network)];

    // What neither raises energy nor stops is asked at the ordinary pace only.
    private static readonly ((CommandKind, CommandSource)? Act, Pace Pace)[] ActsAndPaces =
    [
        .. from act in Acts from pace in Enum.GetValues<Pace>() select (act, pace),
        .. from act in OtherActs select (act, Pace.OnTime),
    ];

    /// <summary>Of an ordinary run: the outputs are not read back, and no speed is too high.</summary>
    public static Move[] Ordinary { get; } =
    [
        .. from speed in new double?[] { 0, 100, null } from shut in Both from stops in Both from cuts in Both from proven in Both from act in ActsAndPaces
           select new Move(speed, shut, true, stops, cuts, proven, act.Act, act.Pace, LinkFate.Whole),
    ];

    /// <summary>Of a verification, which stands in for the proof that there is not yet.</summary>
    public static Move[] Verification { get; } =
    [
        .. from speed in new double?[] { 0, 100, 500, null } from shut in Both from stopped in Both from stops in Both from cuts in Both from proven in No from act in ActsAndPaces
           select new Move(speed, shut, stopped, stops, cuts, proven, act.Act, act.Pace, LinkFate.Whole),
    ];

    /// <summary>Of the receiver behind its gate: its stick at stop, up, or its pulse lost.</summary>
    public static Move[] Gated { get; } =
    [
        .. from speed in new double?[] { 0, 100, null } from shut in Both from stops in Both from stick in new double?[] { Move.AtStop, 1500, null } from act in ActsAndPaces
           select new Move(speed, shut, true, stops, false, true, act.Act, act.Pace, LinkFate.Whole) { Stick = stick },
    ];

    /// <summary>The same in a verification: the speed may be too high, and the stick above the ceiling's throttle.</summary>
    public static Move[] RadioLost { get; } =
    [
        .. from speed in new double?[] { 0, 100, 500, null } from shut in Both from stops in Both from stick in new double?[] { Move.AtStop, 1150, 1500, null } from act in ActsAndPaces
           select new Move(speed, shut, true, stops, false, false, act.Act, act.Pace, LinkFate.Whole) { Stick = stick },
    ];

    /// <summary>Without power nothing turns, and the output's own reading tells where the stick is.</summary>
    public static Move[] RadioTried { get; } =
    [
        .. from speed in new double?[] { 0, 100, null } from shut in Both from stopped in Both from stops in Both from stick in new double?[] { Move.AtStop, 1150, 1500, null } from act in ActsAndPaces
           select new Move(speed, shut, stopped, stops, false, false, act.Act, act.Pace, LinkFate.Whole) { Stick = stick },
    ];

    /// <summary>Of a board behind a link: lid and objection are what the board's answers make of them.</summary>
    public static Move[] Linked { get; } =
    [
        .. from speed in new double?[] { 0, 100, null } from shut in Both from proven in Yes from act in Acts from link in Enum.GetValues<LinkFate>()
           select new Move(speed, shut, true, false, false, proven, act, Pace.OnTime, link),
    ];
}
