using System.Globalization;
using System.Text;

namespace RigControl.Fuzzing;

/// <summary>
/// Spoils valid inputs by chance. It knows nothing of what the code does with them (no coverage is measured): it puts
/// together what stands in the valid ones, and what readers are known to stumble over.
/// </summary>
public sealed class Mutator
{
    private const int LongestInput = 1 << 16;
    private const int MostChanges = 6;

    private static readonly string[] Stumbles =
    [
        "0", "-1", "1e999", "-0", "NaN", "Infinity", "65535", "65536", "4294967296", "9223372036854775808", "0.1", ".5", "1.", "0x10", "",
        " ", "\t", "\n", "\r\n", ":", "- ", "[", "]", "{", "}", "&a ", "*a", "<<: *a", "!!int ", "? ", "|", ">", "\"", "'", "#", "%", "\\u0000",
        "~", "null", "yes", "\0", "\u2028", "\uFEFF", "é", "🙂", "#0000", " # ",
    ];

    private readonly byte[][] _corpus;
    private readonly byte[][] _words;

    public Mutator(IReadOnlyList<byte[]> corpus)
    {
        _corpus = [.. corpus];
        IEnumerable<string> words = corpus.SelectMany(c => Encoding.Latin1.GetString(c).Split([' ', '\n', ',', ':', '{', '}', '[', ']'], StringSplitOptions.RemoveEmptyEntries));
        _words = [.. words.Distinct().Select(Encoding.Latin1.GetBytes), .. Stumbles.Select(Encoding.UTF8.GetBytes)];
    }

    /// <summary>One spoilt input; the same seed gives the same.</summary>
    public byte[] Next(Random random)
    {
        List<byte> input = [.. Pick(_corpus, random)];
        for (int n = 1 + random.Next(MostChanges); n > 0; n--)
            Change(input, random);
        return [.. input.Take(LongestInput)];
    }

    private void Change(List<byte> input, Random random)
    {
        int at = random.Next(input.Count + 1);
        int length = random.Next(Math.Min(input.Count - at, 1 << random.Next(8)) + 1);
        switch (random.Next(9))
        {
            case 0 when input.Count > 0:
                input[random.Next(input.Count)] ^= (byte)(1 << random.Next(8));
                break;
            case 1:
                input.Insert(at, (byte)random.Next(256));
                break;
            case 2:
                input.RemoveRange(at, length);
                break;
            case 3:
                input.InsertRange(at, [.. input.Skip(at).Take(length)]);
                break;
            case 4:
                input.InsertRange(at, Pick(_words, random));
                break;
            case 5:
                ReplaceWord(input, at, random);
                break;
            case 6:
                Splice(input, at, random);
                break;
            case 7:
                SwapLines(input, random);
                break;
            default:
                input.InsertRange(at, Enumerable.Repeat((byte)"[{ -a0#\n"[random.Next(8)], 1 << random.Next(10)));
                break;
        }
    }

    private void ReplaceWord(List<byte> input, int at, Random random)
    {
        int end = at;
        while (end < input.Count && input[end] > ' ')
            end++;
        while (at > 0 && input[at - 1] > ' ')
            at--;
        input.RemoveRange(at, end - at);
        byte[] word = random.Next(4) == 0
            ? Encoding.ASCII.GetBytes(random.NextInt64().ToString(CultureInfo.InvariantCulture))
            : Pick(_words, random);
        input.InsertRange(at, word);
    }

    private void Splice(List<byte> input, int at, Random random)
    {
        byte[] other = Pick(_corpus, random);
        int from = random.Next(other.Length + 1);
        input.RemoveRange(at, input.Count - at);
        input.AddRange(other.AsSpan(from));
    }

    private static void SwapLines(List<byte> input, Random random)
    {
        string[] lines = Encoding.Latin1.GetString([.. input]).Split('\n');
        (int one, int other) = (random.Next(lines.Length), random.Next(lines.Length));
        (lines[one], lines[other]) = (lines[other], lines[one]);
        input.Clear();
        input.AddRange(Encoding.Latin1.GetBytes(string.Join('\n', lines)));
    }

    private static byte[] Pick(byte[][] from, Random random) => from[random.Next(from.Length)];
}
