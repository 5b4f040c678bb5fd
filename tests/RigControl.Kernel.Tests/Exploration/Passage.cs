using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Kernel.Tests.Exploration;

/// <summary>A way from one state of the rig to another, or to itself: what an observer of any run can see of a scan.</summary>
internal readonly record struct Passage(RigState Before, Trigger Fired, RigState After, ArmingPhase Phase, bool IsPowered, bool Drives)
{
    /// <summary>The passage of a scan.</summary>
    public static Passage Of(in ScanRecord record) =>
        new(record.Before, record.Fired, record.State, record.Phase, record.Outputs.Power, record.Outputs.Drives);

    /// <summary>The passage that a line of its <see cref="Line"/> tells.</summary>
    /// <exception cref="FormatException">The line tells none.</exception>
    public static Passage Parse(string line)
    {
        string[] words = line.Split(' ');
        return words.Length == 6 && Enum.TryParse(words[0], out RigState before) && Enum.TryParse(words[1], out Trigger fired)
            && Enum.TryParse(words[2], out RigState after) && Enum.TryParse(words[3], out ArmingPhase phase)
            ? new(before, fired, after, phase, words[4] == "powered", words[5] == "driven")
            : throw new FormatException($"this is no passage: {line}");
    }

    /// <summary>Six words: before, what fired, after, phase, powered or not, driven or not.</summary>
    public string Line => $"{Before} {Fired} {After} {Phase} {(IsPowered ? "powered" : "unpowered")} {(Drives ? "driven" : "undriven")}";
}
