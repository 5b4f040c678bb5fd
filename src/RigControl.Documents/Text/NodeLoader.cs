using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace RigControl.Documents.Text;

/// <summary>
/// Turns YAML into nodes with their places. Every value stays text: the key it belongs to says what it means, so that
/// no spelling of a value (<c>no</c>, <c>1e3</c>, <c>1_000</c>) depends on a dialect.
/// </summary>
internal sealed class NodeLoader
{
    private readonly Lines lines;
    private readonly Scanner scanner;
    private readonly Parser parser;
    private readonly ProblemList problems;
    private int nodes;

    private NodeLoader(string text, ProblemList problems)
    {
        lines = new(text);
        scanner = new(new StringReader(text));
        parser = new(scanner);
        this.problems = problems;
    }

    /// <summary>The root of the text, or null when it could not be read as YAML at all; never throws.</summary>
    public static Node? Load(string text, ProblemList problems)
    {
        string body = text.StartsWith('\uFEFF') ? text[1..] : text;
        var loader = new NodeLoader(body, problems);
        try
        {
            TextLimits.Demand(body);
            return loader.Root();
        }
        catch (UnreadableException e)
        {
            problems.Add(e.Place, e.Message, e.Remedy);
        }
        catch (YamlException e)
        {
            MalformedText.Report(e.Start, e.Message, loader.lines, problems);
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            // The parser trips over some malformed texts, in several ways, instead of refusing them; its position still says where.
            MalformedText.Report(loader.scanner.CurrentPosition, "", loader.lines, problems);
        }
        return null;
    }

    private Node? Root()
    {
        parser.Consume<StreamStart>();
        if (parser.Accept<StreamEnd>(out _))
            throw new UnreadableException(Place.Start, "the file is empty", "begin it with `procedure:`, `article:` or `rig:`");
        parser.Consume<DocumentStart>();
        Node root = Next(1);
        parser.Consume<DocumentEnd>();
        if (parser.TryConsume<DocumentStart>(out DocumentStart? second))
            throw new UnreadableException(At(second), "a second document begins here", "keep one document to a file");
        return root;
    }

    private Node Next(int depth)
    {
        ParsingEvent next = parser.Consume<ParsingEvent>();
        if (++nodes > TextLimits.Nodes)
            throw new UnreadableException(At(next), $"the file holds more than {TextLimits.Nodes} values", "split it");
        if (depth > TextLimits.Depth && next is SequenceStart or MappingStart)
            throw new UnreadableException(At(next), $"this is nested more than {TextLimits.Depth} deep", "write it flatter");
        RefuseNames(next);
        return next switch
        {
            Scalar scalar => new TextNode(At(scalar), scalar.Value, scalar.Style != ScalarStyle.Plain),
            SequenceStart => new ListNode(At(next), Items(depth)),
            MappingStart => new MapNode(At(next), Entries(depth)),
            _ => new BrokenNode(At(next)),
        };
    }

    private List<Node> Items(int depth)
    {
        List<Node> items = [];
        while (!parser.TryConsume<SequenceEnd>(out _))
            items.Add(Next(depth + 1));
        return items;
    }

    private List<Entry> Entries(int depth)
    {
        List<Entry> entries = [];
        Dictionary<string, Place> seen = [];
        while (!parser.TryConsume<MappingEnd>(out _))
        {
            Node key = Next(depth + 1);
            Node value = Next(depth + 1);
            if (key is not TextNode { IsNothing: false } name)
                problems.Add(key.Place, "a key must be a word", "write `key: value`");
            else if (seen.TryGetValue(name.Text, out Place first))
                problems.Add(name.Place, $"the key {Words.Quote(name.Text)} stands here twice, first on line {first.Line}", "keep one of them");
            else
                Keep(name, value);
        }
        return entries;

        void Keep(TextNode name, Node value)
        {
            seen.Add(name.Text, name.Place);
            entries.Add(new(name.Text, name.Place, value));
        }
    }

    // A text whose parts stand for other parts cannot be checked by eye, and can be made to grow without end.
    private void RefuseNames(ParsingEvent next)
    {
        if (next is AnchorAlias alias)
            problems.Add(At(next), $"`*{alias.Value}` stands for another part of the file", "write the value itself");
        else if (next is NodeEvent { Anchor.IsEmpty: false } named)
            problems.Add(At(next), $"`&{named.Anchor}` names a part of the file", "leave the name out");
        if (next is NodeEvent { Tag.IsEmpty: false } tagged)
            problems.Add(At(next), $"the tag {Words.Quote(tagged.Tag.ToString())} is not used here", "leave it out");
    }

    private Place At(ParsingEvent next) => lines.At(next.Start);
}
