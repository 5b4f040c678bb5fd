using RigControl.Documents.Tests.Support;

namespace RigControl.Documents.Tests;

public class DocumentReaderTests
{
    [Theory]
    [InlineData(Samples.Procedure, DocumentKind.Procedure)]
    [InlineData(Samples.Article, DocumentKind.Article)]
    [InlineData(Samples.Rig, DocumentKind.Rig)]
    [InlineData(Samples.Rules, DocumentKind.Rules)]
    [InlineData("# a comment\n\nsteps: []\nprocedure : late", DocumentKind.Procedure)]
    [InlineData("\"article\": quoted", DocumentKind.Article)]
    [InlineData("{rig: flow}", DocumentKind.Rig)]
    [InlineData("\uFEFFrig: marked", DocumentKind.Rig)]
    [InlineData("rig: [never closed", DocumentKind.Rig)]
    [InlineData("", DocumentKind.Unknown)]
    [InlineData("rigging: x", DocumentKind.Unknown)]
    [InlineData("# rig: x", DocumentKind.Unknown)]
    [InlineData("time [s],rotor.speed [rpm]\n0,0\n", DocumentKind.Unknown)]
    public void A_file_is_known_by_its_top_key(string text, DocumentKind kind) => Assert.Equal(kind, DocumentReader.KindOf(text));

    [Theory]
    [InlineData(Samples.Procedure)]
    [InlineData(Samples.Article)]
    [InlineData(Samples.Rig)]
    [InlineData(Samples.Rules)]
    public void A_file_of_any_kind_in_order_is_checked_without_a_problem(string text) => Assert.Empty(DocumentReader.Check(text, "f", Samples.Kinds));

    [Fact]
    public void A_file_of_no_kind_is_told_how_to_begin() =>
        Assert.Equal("trace.csv:1:1: this is not a procedure, article, rig or rules file; begin it with `procedure:`, `article:`, `rig:` or `rules:`",
            Assert.Single(DocumentReader.Check("time,speed", "trace.csv", Samples.Kinds)).ToString());

    [Fact]
    public void A_file_with_any_problem_yields_no_value() =>
        Assert.Null(DocumentReader.ReadArticle(Samples.Article.Replace("fastest-rise: 0.5 s", "fastest-rise: 0"), "f").Value);

    [Fact]
    public void A_text_without_structure_is_asked_for_keys() =>
        Assert.Equal(["f:1:1: the procedure file needs keys, but `hello` is a single value; write `key: value` for each"],
            DocumentReader.ReadProcedure("hello", "f").Problems.Select(p => p.ToString()));

    [Fact]
    public void A_part_of_a_file_is_found_again_at_its_place()
    {
        Places places = DocumentReader.ReadProcedure(Samples.Procedure, "f").Places;
        Assert.Equal("f", places.File);
        Assert.Equal(new Place(7, 17), places.Of("steps", 1, "spin-up", "throttle"));
        Assert.Equal(new Place(9, 14), places.Of("steps", 1, "spin-up", "until", 0));
        Assert.Equal(new Place(5, 5), places.Of("steps", 0, "no-such-key"));
        Assert.Equal(new Place(5, 3), places.Of("steps", 99));
        Assert.Equal(Place.Start, Places.None.Of("steps", 1));
    }
}
