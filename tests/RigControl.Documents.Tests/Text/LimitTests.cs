using RigControl.Documents.Tests.Support;

namespace RigControl.Documents.Tests.Text;

/// <summary>A text that is too much, or no text, ends in one sentence at its place.</summary>
public class LimitTests
{
    [Fact]
    public void An_empty_file_is_told_how_to_begin() => Only("", "1:1: the file is empty; begin it with `procedure:`, `article:` or `rig:`");

    [Fact]
    public void A_file_of_comments_is_as_good_as_empty() =>
        Only("# nothing\n", "1:1: the file is empty; begin it with `procedure:`, `article:` or `rig:`");

    [Fact]
    public void A_file_above_one_mebibyte_is_refused() =>
        Only("procedure: p\n#" + new string('x', 1 << 20), "1:1: the file is larger than 1 MiB; split it or remove what does not belong into it");

    [Fact]
    public void Bytes_are_counted_and_not_characters() =>
        Only("procedure: p\n#" + new string('é', 600_000), "1:1: the file is larger than 1 MiB; split it or remove what does not belong into it");

    [Fact]
    public void Sixteen_levels_are_the_deepest()
    {
        Assert.DoesNotContain(Read("a: " + new string('[', 15) + new string(']', 15)), p => p.What.Contains("nested"));
        Only("a: " + new string('[', 16) + new string(']', 16), "1:19: this is nested more than 16 deep; write it flatter");
    }

    [Fact]
    public void A_megabyte_of_brackets_is_refused_at_the_first_that_is_too_deep() =>
        Only("a: " + new string('[', 1_000_000), "1:19: this is nested more than 16 deep; write it flatter");

    [Fact]
    public void Ten_thousand_values_are_the_most()
    {
        // The group, the key and the list are values as well.
        Assert.DoesNotContain(Read("a: [" + string.Join(',', Enumerable.Repeat("b", 9_997)) + "]"), p => p.What.Contains("more than"));
        Only("a: [" + string.Join(',', Enumerable.Repeat("b", 9_998)) + "]", "1:19999: the file holds more than 10000 values; split it");
    }

    [Theory]
    [InlineData("procedure: p\nrequires: \u0000", "2:11: the character U+0000 does not belong into a text file; remove it, and save the file as UTF-8")]
    [InlineData("procedure: \u2028", "1:12: the character U+2028 does not belong into a text file; remove it, and save the file as UTF-8")]
    [InlineData("a\r\nb\rc\u0085", "3:2: the character U+0085 does not belong into a text file; remove it, and save the file as UTF-8")]
    [InlineData("\uFEFF\uFEFFa: b", "1:1: the character U+FEFF does not belong into a text file; remove it, and save the file as UTF-8")]
    public void A_character_that_no_editor_shows_is_named(string text, string problem) => Only(text, problem);

    [Fact]
    public void Half_a_character_is_named()
    {
        Only("a: " + (char)0xD83D, "1:4: the character U+D83D does not belong into a text file; remove it, and save the file as UTF-8");
        Only("a: " + (char)0xDE00, "1:4: the character U+DE00 does not belong into a text file; remove it, and save the file as UTF-8");
    }

    [Fact]
    public void A_byte_order_mark_and_foreign_line_ends_change_nothing()
    {
        Assert.Empty(Read("\uFEFF" + Samples.Procedure));
        Assert.Empty(Read(Samples.Procedure.Replace("\n", "\r\n")));
    }

    [Fact]
    public void A_comment_may_hold_any_script() => Assert.Empty(Read("# 速度 – vitesse – 🙂\n" + Samples.Procedure));

    private static void Only(string text, string problem) => Assert.Equal([$"f:{problem}"], Read(text).Select(p => p.ToString()));

    private static IReadOnlyList<Problem> Read(string text) => DocumentReader.ReadProcedure(text, "f").Problems;
}
