using RigControl.Documents.Text;

namespace RigControl.Documents.Values;

/// <summary>
/// The keys of one group. Whoever reads it asks for each key it knows; <see cref="Close"/> then reports the keys that nobody
/// asked for. So what is known stands in one place, the reading itself.
/// </summary>
internal sealed class Fields
{
    private readonly MapNode map;
    private readonly List<string> asked = [];

    private Fields(MapNode map, string owner, ProblemList problems) => (this.map, Owner, Problems) = (map, owner, problems);

    /// <summary>What the group is, for sentences: <c>the hold step</c>.</summary>
    public string Owner { get; }

    public ProblemList Problems { get; }

    public Place Place => map.Place;

    public IReadOnlyList<Entry> Entries => map.Entries;

    /// <summary>Null, with a problem reported, where the node is no group.</summary>
    public static Fields? Of(Node? node, string owner, ProblemList problems)
    {
        if (node is MapNode map)
            return new(map, owner, problems);
        if (node is TextNode or ListNode)
            problems.Add(node.Place, $"{owner} needs keys, but {node.Describe()}", "write `key: value` for each");
        return null;
    }

    /// <summary>The value of a key, or null where it is left out.</summary>
    public Node? Optional(string key)
    {
        asked.Add(key);
        return map.Find(key);
    }

    /// <summary>The value of a key; a problem where it is left out.</summary>
    /// <param name="due">What to write, such as <c>a time from 0 s to 10 s</c>.</param>
    public Node? Required(string key, string due)
    {
        Node? value = Optional(key);
        if (value is null)
            Problems.Add(Place, $"{Owner} has no `{key}`", $"write `{key}:` and {due}");
        return value;
    }

    public bool Has(string key) => map.Find(key) is not null;

    /// <summary>The place of a key's value; of the group where the key is left out.</summary>
    public Place PlaceOf(string key) => map.Find(key)?.Place ?? Place;

    /// <summary>Reports every key that was never asked for.</summary>
    public void Close()
    {
        foreach (Entry entry in map.Entries.Where(e => !asked.Contains(e.Key)))
        {
            string remedy = Nearest.Of(entry.Key, asked) is { } meant ? $"write `{meant}`" : Known();
            Problems.Add(entry.KeyPlace, $"{Owner} knows no key {Words.Quote(entry.Key)}", remedy);
        }
    }

    private string Known() => asked.Count == 0 ? "leave it out" : $"leave it out, or write one of {string.Join(", ", asked.Distinct())}";
}
