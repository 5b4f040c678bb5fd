namespace RigControl.Kernel.Tests.Exploration;

/// <summary>What must hold at the board's end of the line, whatever became of the frames.</summary>
internal static class LinkRules
{
    public static Dictionary<string, Rules.Rule> All { get; } = new()
    {
        ["behind an open lid the board has neither pulse nor power, whatever the host says"] = (in Seen s) =>
            !s.World.IsLinked || s.Move.Shut || IsOff(s.Wire),
        ["a board that hears nothing stops by itself"] = (in Seen s) => !s.World.IsLinked || s.Wire.SilentFor < Wire.Silence || IsOff(s.Wire),
        ["a board that begins anew has neither pulse nor power until it is loaded"] = (in Seen s) => !s.World.IsLinked || s.Wire.IsLoaded || IsOff(s.Wire),
        ["what the kernel ended is over at the board within a frame late and one lost"] = (in Seen s) =>
            !s.World.IsLinked || ((!s.Wire.HasPulse || s.Wire.SinceDriven <= Wire.LongestEcho) && (!s.Wire.HasPower || s.Wire.SincePowered <= Wire.LongestEcho)),
        ["a board lets go of its latch only while an operator arms"] = (in Seen s) =>
            !s.World.IsLinked || !s.WireBefore.IsLatched || s.Wire.IsLatched || s.Before.Phase == ArmingPhase.Preparing || s.Record.Phase == ArmingPhase.Preparing,
        ["a device out of service drives and powers nothing"] = (in Seen s) => !s.World.IsLinked || s.Move.Link == LinkFate.HostRestarts || !s.WireBefore.IsGivenUp || (!s.Drives && !s.Out.Power),
        ["behind a latch that the host knows of, nothing is driven"] = (in Seen s) => !s.World.IsLinked || s.Move.Link == LinkFate.HostRestarts || !s.WireBefore.SaysLatched || !s.Drives,
    };

    private static bool IsOff(in Wire wire) => !wire.HasPulse && !wire.HasPower;
}
