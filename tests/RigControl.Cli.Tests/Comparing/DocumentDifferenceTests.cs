using CsCheck;
using RigControl.Cli.Comparing;

namespace RigControl.Cli.Tests.Comparing;

/// <summary>Where two recorded files differ is told by the name of the section and, where it is little, by what stands there.</summary>
public class DocumentDifferenceTests
{
    private const string Article = """
        # A disc.
        article: disc-180
        rotor:
          mass: 180 g     # weighed
          inertia: 0.00018 kg.m2
        pack:
          cells: 3S
          capacity: 1300 mAh
        stopping-time: 0.5 s
        """;

    [Fact]
    public void Another_pack_is_called_so_with_both_values() =>
        Assert.Equal(["pack (capacity: 1300 mAh against capacity: 1500 mAh)"], Of("1300 mAh", "1500 mAh"));

    [Fact]
    public void Another_enclosure_of_one_line_is_called_so() => Assert.Equal(
        ["enclosure ({ rating: 400 J, source: \"#1\" } against { rating: 200 J, source: \"#1\" })"],
        DocumentDifference.Of("rig: a\nenclosure: { rating: 400 J, source: \"#1\" }\n", "rig: a\nenclosure: { rating: 200 J, source: \"#1\" }  # a new one\n"));

    [Fact]
    public void A_section_that_only_one_file_has_is_nothing_against_something() =>
        Assert.Equal(["stopping-time (0.5 s against nothing)"], Of("stopping-time: 0.5 s", ""));

    [Fact]
    public void Of_a_section_that_differs_in_many_lines_the_name_is_enough() => Assert.Equal(["rotor", "pack (cells: 3S against cells: 4S)"], DocumentDifference.Of(
        Article, Article.Replace("mass: 180 g", "mass: 200 g\n  a: 1\n  b: 2", StringComparison.Ordinal).Replace("3S", "4S", StringComparison.Ordinal)));

    [Theory]
    [InlineData("# A disc.", "# The old disc.")]
    [InlineData("# weighed", "# weighed on 2031-05-04")]
    [InlineData("article: disc-180\n", "\narticle: disc-180   \n\n")]
    public void Comments_blank_lines_and_blanks_at_the_end_are_no_difference(string find, string replace)
    {
        Assert.True(DocumentDifference.Alike(Article, Article.Replace(find, replace, StringComparison.Ordinal)));
        Assert.Empty(Of(find, replace));
    }

    [Fact]
    public void A_value_with_a_number_sign_in_it_is_no_comment() =>
        Assert.False(DocumentDifference.Alike("source: \"box #1\"\n", "source: \"box #2\"\n"));

    [Fact]
    public void Any_text_is_like_itself_and_unlike_itself_with_a_line_more() => Gen.String[Gen.Char["ab: -#\"\n "], 0, 60].Sample(text =>
    {
        Assert.True(DocumentDifference.Alike(text, text));
        Assert.Empty(DocumentDifference.Of(text, text));
        Assert.False(DocumentDifference.Alike(text, text + "\nzz: 1"));
        Assert.Contains(DocumentDifference.Of(text, text + "\nzz: 1"), d => d.StartsWith("zz (", StringComparison.Ordinal));
    });

    private static IReadOnlyList<string> Of(string find, string replace)
    {
        Assert.Contains(find, Article, StringComparison.Ordinal);
        return DocumentDifference.Of(Article, Article.Replace(find, replace, StringComparison.Ordinal));
    }
}
