using System.Numerics;

namespace RigControl.Devices.RigBoard.Protocol;

/// <summary>Why the board has stopped by itself, as bits of its line protocol.</summary>
[Flags]
internal enum BoardCauses : ushort
{
    None = 0,
    Start = 1,
    SelfTest = 2,
    Lid = 4,
    LidPair = 8,
    Stop = 16,
    Silent = 32,
    Speed = 64,
    Current = 128,
    Tachometer = 256,
    Contactor = 512,
    Sampler = 1024,
    Receiver = 2048,
}

internal static class BoardCausesWords
{
    private static readonly string[] Words =
    [
        "it started or was configured afresh", "its self-test failed", "the lid opened", "the lid contacts contradict each other",
        "the stop circuit opened", "the host fell silent", "over-speed", "over-current", "no tachometer pulse while driven",
        "the contactor's feedback does not follow", "its analogue converter stands still",
        "the receiver gave no pulse while it drove",
    ];

    /// <summary>The causes as a person reads them; a bit that nobody has described by its number.</summary>
    public static string InWords(this BoardCauses causes)
    {
        List<string> told = [];
        for (uint rest = (ushort)causes; rest != 0; rest &= rest - 1)
        {
            int bit = BitOperations.TrailingZeroCount(rest);
            told.Add(bit < Words.Length ? Words[bit] : $"cause {bit}");
        }

        return told.Count == 0 ? "nothing" : string.Join(", ", told);
    }
}
