using System.Globalization;

namespace RigControl.Cli.Boards;

/// <summary>A program for the board as Intel HEX text: whole, or not written at all.</summary>
internal static class FirmwareFile
{
    /// <summary>Flash of an ATmega328P, bytes.</summary>
    private const int FlashSize = 32 * 1024;

    private const int Data = 0;
    private const int End = 1;

    /// <summary>The firmware that the build laid beside the program.</summary>
    public static string BesideTheProgram => Path.Combine(AppContext.BaseDirectory, "firmware", "rigboard.hex");

    /// <summary>What is wrong with a text, a clause; null where it is a whole program that fits.</summary>
    public static string? Fault(IReadOnlyList<string> lines)
    {
        bool ended = false;
        int bytes = 0;
        for (int i = 0; i < lines.Count; i++)
        {
            if (lines[i].Length == 0)
                continue;
            if (ended)
                return $"line {i + 1} comes after the end";
            if (Record(lines[i]) is not { } record)
                return $"line {i + 1} is damaged";
            int last = (record[1] << 8) + record[2] + record[0];
            if (record[3] == Data && last > FlashSize)
                return $"line {i + 1} lies beyond the chip's {FlashSize / 1024} KiB";
            bytes += record[3] == Data ? record[0] : 0;
            ended = record[3] == End;
        }

        return !ended ? "its end is missing" : bytes == 0 ? "it holds no program" : null;
    }

    /// <summary>A record's bytes, checked: length, address (2), type, data, checksum; null where it is damaged.</summary>
    private static byte[]? Record(string line)
    {
        string text = line.TrimEnd('\r');
        if (text.Length < 11 || text[0] != ':' || text.Length % 2 == 0)
            return null;
        byte[] bytes = new byte[text.Length / 2];
        for (int i = 0; i < bytes.Length; i++)
        {
            if (!byte.TryParse(text.AsSpan(1 + 2 * i, 2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out bytes[i]))
                return null;
        }

        // The sum over a whole record is 0 modulo 256 (Intel HEX, from memory).
        return bytes.Length == bytes[0] + 5 && bytes.Sum(b => b) % 256 == 0 ? bytes : null;
    }
}
