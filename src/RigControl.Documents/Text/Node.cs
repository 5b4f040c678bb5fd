namespace RigControl.Documents.Text;

/// <summary>A part of a YAML text and where it stands.</summary>
internal abstract class Node(Place place)
{
    public Place Place { get; } = place;

    /// <summary>What a person would call it in a sentence.</summary>
    public abstract string Describe();
}

/// <summary>A single value, still as text: what it means depends on the key it belongs to.</summary>
internal sealed class TextNode(Place place, string text, bool quoted) : Node(place)
{
    public string Text { get; } = text;

    /// <summary>Nothing was written after the colon.</summary>
    public bool IsNothing => Text.Length == 0 && !quoted;

    public override string Describe() => IsNothing ? "nothing is written here"
        : Text.Length == 0 ? "the text is empty"
        : $"{Words.Quote(Text)} is a single value";
}

internal sealed class ListNode(Place place, IReadOnlyList<Node> items) : Node(place)
{
    public IReadOnlyList<Node> Items { get; } = items;

    public override string Describe() => "this is a list";
}

internal sealed class MapNode(Place place, IReadOnlyList<Entry> entries) : Node(place)
{
    public IReadOnlyList<Entry> Entries { get; } = entries;

    public Node? Find(string key) => Entries.FirstOrDefault(e => e.Key == key)?.Value;

    public override string Describe() => "this is a group of keys";
}

/// <summary>Stands for what was already reported, so that nothing else is said about it.</summary>
internal sealed class BrokenNode(Place place) : Node(place)
{
    public override string Describe() => "this cannot be read";
}

/// <summary>A key of a group with its value.</summary>
internal sealed record Entry(string Key, Place KeyPlace, Node Value);
