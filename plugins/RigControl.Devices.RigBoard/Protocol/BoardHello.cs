using System.Text;

namespace RigControl.Devices.RigBoard.Protocol;

/// <summary>How a board presents itself.</summary>
/// <param name="Protocol">Version of the line protocol it speaks.</param>
/// <param name="Firmware">Such as <c>1.0.0</c>; empty when it speaks another protocol.</param>
/// <param name="Name">Name in its memory, <c>unnamed</c> when nobody gave it one.</param>
/// <param name="Nonce">Another at every start of the board.</param>
/// <param name="ResetCause">Why it last started.</param>
/// <param name="FlashGood">Its program is whole.</param>
/// <param name="MemoryGood">Its memory passed the test at start.</param>
internal sealed record BoardHello(
    uint Protocol, string Firmware, string Name, uint Nonce, string ResetCause, bool FlashGood, bool MemoryGood)
{
    /// <summary>The version of the line protocol that this host speaks.</summary>
    public const uint Spoken = 1;

    // Room beyond every word that boards send today; the protocol bounds only the whole line.
    private const int LongestWord = 16;

    /// <summary>The last four digits of the nonce, as every status line carries them.</summary>
    public ushort ShortNonce => (ushort)Nonce;

    /// <summary>Reads the fields after the word <c>hello</c>; null when they are not as described. Of another protocol only its number is read.</summary>
    public static BoardHello? Read(LineFields fields)
    {
        fields.Hex(4);
        uint protocol = fields.Decimal(int.MaxValue);
        if (fields.Malformed)
            return null;
        if (protocol != Spoken)
            return new BoardHello(protocol, "", "", 0, "", false, false);
        string firmware = Word(ref fields);
        string name = Word(ref fields);
        uint nonce = fields.Hex(8);
        string cause = Word(ref fields);
        bool flash = Passed(ref fields);
        bool memory = Passed(ref fields);
        fields.Hex(4);
        return fields.Complete ? new BoardHello(protocol, firmware, name, nonce, cause, flash, memory) : null;
    }

    private static string Word(ref LineFields fields)
    {
        ReadOnlySpan<byte> word = fields.Text();
        if (word.Length > LongestWord)
            fields.Spoil();
        return Encoding.ASCII.GetString(word);
    }

    private static bool Passed(ref LineFields fields)
    {
        ReadOnlySpan<byte> word = fields.Text();
        bool good = word.SequenceEqual("good"u8);
        if (!good && !word.SequenceEqual("bad"u8))
            fields.Spoil();
        return good;
    }
}
