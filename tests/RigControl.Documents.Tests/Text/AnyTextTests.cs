using System.Text;
using System.Text.Json;
using RigControl.Documents.Tests.Support;

namespace RigControl.Documents.Tests.Text;

/// <summary>Whatever is in a file, it is read or explained, and never ends the program.</summary>
public class AnyTextTests
{
    private static readonly string[] Samples3 = [Samples.Procedure, Samples.Article, Samples.Rig];

    // What YAML gives a meaning to, and what our own readers look at.
    private static readonly string[] Pieces =
    [
        ":", ": ", "- ", "\n", "\n  ", "\n    ", "\t", "[", "]", "{", "}", ",", "\"", "'", "|", ">", "&a ", "*a", "!t ", "!!int ", "#", " #", "%", "@", "`",
        "---\n", "...\n", "? ", "<<: ", "~", "null", "%YAML 1.3\n", "\\x41", "\"\\U0010FFFF\"", "\"\\UFFFFFFFF\"", "\"\\uD800\"", "\r", "\r\n",
        "procedure", "steps", "until", "spin-up", "throttle", "60 %", "1e999", "-1", "0", "yes", "é", "🙂", "\u2028", "\uFEFF", "\0", "\ud800",
    ];

    [Fact]
    public void Any_characters_at_all_are_read_or_explained() => Seeds.Each(4000, random =>
    {
        var text = new StringBuilder();
        for (int n = random.Next(60); n > 0; n--)
            text.Append((char)random.Next(random.Next(2) == 0 ? 128 : 0x10000));
        Explained(text.ToString());
    });

    [Fact]
    public void Any_order_of_what_yaml_gives_a_meaning_is_read_or_explained() => Seeds.Each(8000, random =>
    {
        var text = new StringBuilder();
        for (int n = random.Next(40); n > 0; n--)
            text.Append(Pieces[random.Next(Pieces.Length)]);
        Explained(text.ToString());
    });

    [Fact]
    public void Any_slip_in_a_file_in_order_is_read_or_explained() => Seeds.Each(3000, random =>
    {
        string text = Samples3[random.Next(Samples3.Length)];
        for (int n = 1 + random.Next(4); n > 0; n--)
            text = Slip(text, random);
        Explained(text);
    });

    [Fact]
    public void A_file_cut_off_anywhere_is_read_or_explained()
    {
        foreach (string sample in Samples3)
        {
            for (int length = 0; length <= sample.Length; length++)
                Explained(sample[..length]);
        }
    }

    private static string Slip(string text, Random random)
    {
        int at = random.Next(text.Length + 1);
        int end = Math.Min(text.Length, at + random.Next(12));
        string[] lines = text.Split('\n');
        return random.Next(5) switch
        {
            0 => text.Remove(at, end - at),
            1 => text.Insert(at, Pieces[random.Next(Pieces.Length)]),
            2 => text.Remove(at, end - at).Insert(at, Pieces[random.Next(Pieces.Length)]),
            3 => text.Insert(at, text[at..end]),
            _ => string.Join('\n', lines.OrderBy(_ => random.Next(8))),
        };
    }

    private static void Explained(string text)
    {
        DocumentReader.KindOf(text);
        Explained(text, DocumentReader.ReadProcedure(text, "f"));
        Explained(text, DocumentReader.ReadArticle(text, "f"));
        Explained(text, DocumentReader.ReadRig(text, "f", Samples.Kinds));
    }

    private static void Explained<T>(string text, Reading<T> reading)
        where T : class
    {
        Assert.Equal(reading.Value is null, reading.Problems.Count > 0);
        Assert.Equal(reading.Problems.OrderBy(p => p.Line).ThenBy(p => p.Column), reading.Problems);
        string[] lines = text.ReplaceLineEndings("\n").Split('\n');
        foreach (Problem problem in reading.Problems)
        {
            bool inside = problem.Line >= 1 && problem.Line <= lines.Length && problem.Column >= 1 && problem.Column <= lines[problem.Line - 1].Length + 1;
            Assert.True(inside, $"{problem} is outside of {JsonSerializer.Serialize(text)}");
            Assert.DoesNotContain(problem.ToString(), char.IsControl);
            Assert.True(problem.What.Length > 0 && problem.Remedy.Length > 0);
        }
    }
}
