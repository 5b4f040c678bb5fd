using CsCheck;
using RigControl.Cli.Asking;

namespace RigControl.Cli.Tests.Asking;

/// <summary>What is said fits a narrow terminal.</summary>
public class LinesTests
{
    [Fact]
    public void A_long_sentence_is_broken_between_words() =>
        Assert.Equal(["one two", "three"], Lines.Wrap("one two three", 8));

    [Fact]
    public void Nothing_to_say_is_no_line() => Assert.Empty(Lines.Wrap("  ", 10));

    [Fact]
    public void No_word_is_lost_and_no_line_is_too_long() => Gen.Select(Gen.String["ab c"], Gen.Int[1, 30]).Sample(
        (text, width) =>
        {
            string[] lines = [.. Lines.Wrap(text, width)];
            Assert.Equal(text.Split(' ', StringSplitOptions.RemoveEmptyEntries), string.Join(' ', lines).Split(' ', StringSplitOptions.RemoveEmptyEntries));
            Assert.All(lines, l => Assert.True(l.Length <= width || !l.Contains(' ', StringComparison.Ordinal)));
        },
        iter: 500, seed: "0N0XIzNsQ0O2");
}
