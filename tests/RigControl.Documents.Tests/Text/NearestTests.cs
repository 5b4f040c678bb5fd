using RigControl.Documents.Text;

namespace RigControl.Documents.Tests.Text;

public class NearestTests
{
    private static readonly string[] Known = ["throttle", "timeout", "until", "ramp", "spin-up-time"];

    [Theory]
    [InlineData("thottle", "throttle")]
    [InlineData("THROTTLE", "throttle")]
    [InlineData("tiemout", "timeout")]
    [InlineData("time-out", "timeout")]
    [InlineData("spin_up_time", "spin-up-time")]
    [InlineData("spin up time", "spin-up-time")]
    [InlineData("colour", null)]
    [InlineData("", null)]
    public void The_word_that_was_probably_meant_is_named(string written, string? meant) => Assert.Equal(meant, Nearest.Of(written, Known));

    [Fact]
    public void A_word_of_any_length_costs_no_time() => Assert.Null(Nearest.Of(new string('x', 1_000_000), Known));

    [Theory]
    [InlineData("", "", 0)]
    [InlineData("abc", "abc", 0)]
    [InlineData("abc", "acb", 1)]
    [InlineData("abc", "ab", 1)]
    [InlineData("abc", "abcd", 1)]
    [InlineData("abc", "axc", 1)]
    [InlineData("kitten", "sitting", 3)]
    public void Slips_are_counted_as_a_typist_makes_them(string a, string b, int slips)
    {
        Assert.Equal(slips, Nearest.Slips(a, b));
        Assert.Equal(slips, Nearest.Slips(b, a));
    }

    [Theory]
    [InlineData(new string[0], "")]
    [InlineData(new[] { "a" }, "a")]
    [InlineData(new[] { "a", "b" }, "a or b")]
    [InlineData(new[] { "a", "b", "c" }, "a, b or c")]
    public void Choices_are_listed_as_in_a_sentence(string[] words, string said) => Assert.Equal(said, Words.Either(words));

    [Fact]
    public void A_quoted_text_stays_on_its_line_and_short()
    {
        Assert.Equal("`a b`", Words.Quote("a\nb"));
        Assert.Equal($"`{new string('x', 60)}…`", Words.Quote(new string('x', 500)));
    }
}
