using RigControl.Documents.Text;

namespace RigControl.Documents.Tests.Text;

/// <summary>Every part of a text is found at the place where an editor shows it.</summary>
public class NodeLoaderTests
{
    [Fact]
    public void Keys_and_values_know_their_places()
    {
        MapNode map = Load<MapNode>("a: one\nbb:   two\n");
        Assert.Equal([("a", new Place(1, 1), new Place(1, 4)), ("bb", new Place(2, 1), new Place(2, 7))],
            map.Entries.Select(e => (e.Key, e.KeyPlace, e.Value.Place)));
    }

    [Fact]
    public void Items_know_their_places_in_either_style()
    {
        Assert.Equal([new Place(1, 3), new Place(2, 3)], Load<ListNode>("- a\n- b").Items.Select(i => i.Place));
        Assert.Equal([new Place(1, 2), new Place(1, 5)], Load<ListNode>("[a, b]").Items.Select(i => i.Place));
    }

    [Theory]
    [InlineData("a: no", "no")]
    [InlineData("a: 1_000", "1_000")]
    [InlineData("a: 0o17", "0o17")]
    [InlineData("a: \"quoted \\u00e9\"", "quoted é")]
    [InlineData("a: 'it''s'", "it's")]
    [InlineData("a: |\n  two\n  lines\n", "two\nlines\n")]
    [InlineData("a: 60 % # comment", "60 %")]
    [InlineData("a: ~", "~")]
    public void A_value_stays_the_text_that_was_written(string text, string value) =>
        Assert.Equal(value, Assert.IsType<TextNode>(Load<MapNode>(text).Find("a")).Text);

    [Theory]
    [InlineData("a:", true)]
    [InlineData("a: \"\"", false)]
    [InlineData("a: ''", false)]
    [InlineData("a: x", false)]
    public void Nothing_written_is_told_from_an_empty_text(string text, bool nothing) =>
        Assert.Equal(nothing, Assert.IsType<TextNode>(Load<MapNode>(text).Find("a")).IsNothing);

    [Theory]
    [InlineData("[a, b]: c", "1:1: a key must be a word; write `key: value`")]
    [InlineData(": c", "1:1: a key must be a word; write `key: value`")]
    [InlineData("a: 1\nb: 2\na: 3", "3:1: the key `a` stands here twice, first on line 1; keep one of them")]
    [InlineData("a: &x 1", "1:4: `&x` names a part of the file; leave the name out")]
    [InlineData("a: { b: !!int 1 }", "1:9: the tag `tag:yaml.org,2002:int` is not used here; leave it out")]
    [InlineData("a: *x", "1:4: `*x` stands for another part of the file; write the value itself")]
    [InlineData("a: &x { b: *x }", "1:4: `&x` names a part of the file; leave the name out", "1:12: `*x` stands for another part of the file; write the value itself")]
    public void What_is_yaml_but_not_for_these_files_is_reported_and_reading_goes_on(string text, params string[] expected)
    {
        var problems = new ProblemList("f");
        Assert.NotNull(NodeLoader.Load(text, problems));
        Assert.Equal(expected, problems.Sorted().Select(p => p.ToString()[2..]));
    }

    [Theory]
    [InlineData("a: [b", "close every bracket, and put commas between what is inside")]
    [InlineData("a: { b: c", "close every bracket, and put commas between what is inside")]
    [InlineData("a: \"b", "check indentation, colons and quotes on this line and the one above")]
    [InlineData("a: b\n\tc: d", "indent with spaces")]
    [InlineData("a: b\n c: d", "check indentation, colons and quotes on this line and the one above")]
    [InlineData("a: b: c", "check indentation, colons and quotes on this line and the one above")]
    public void What_is_no_yaml_is_one_problem_with_advice(string text, string remedy)
    {
        var problems = new ProblemList("f");
        Assert.Null(NodeLoader.Load(text, problems));
        Assert.Equal(remedy, Assert.Single(problems.Sorted()).Remedy);
    }

    [Fact]
    public void A_problem_that_two_readers_find_is_told_once()
    {
        var problems = new ProblemList("f");
        problems.Add(new(2, 1), "b", "r");
        problems.Add(new(1, 9), "a", "r");
        problems.Add(new(2, 1), "b", "r");
        Assert.Equal(["f:1:9: a; r", "f:2:1: b; r"], problems.Sorted().Select(p => p.ToString()));
    }

    private static T Load<T>(string text)
        where T : Node
    {
        var problems = new ProblemList("f");
        Node? root = NodeLoader.Load(text, problems);
        Assert.True(problems.IsEmpty);
        return Assert.IsType<T>(root);
    }
}
