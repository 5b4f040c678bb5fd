using RigControl.Documents.Text;

namespace RigControl.Documents;

/// <summary>Where the parts of a file stand, so that what is only known later can still be reported at its place.</summary>
public sealed class Places
{
    private readonly Node? root;

    internal Places(string file, Node? root) => (File, this.root) = (file, root);

    /// <summary>No file: every part stands at line 1, column 1.</summary>
    public static Places None { get; } = new("", null);

    /// <summary>Name of the file as the caller gave it.</summary>
    public string File { get; }

    /// <summary>
    /// Place of a part, such as <c>Of("steps", 1, "spin-up", "throttle")</c>. Where the path leads further than the file does,
    /// the last part found is meant.
    /// </summary>
    /// <param name="path">Keys as <see cref="string"/>, items of lists as <see cref="int"/> from 0.</param>
    public Place Of(params ReadOnlySpan<object> path) => Find(path)?.Place ?? Place.Start;

    internal string? TextAt(params ReadOnlySpan<object> path) => (Find(path) as TextNode)?.Text;

    private Node? Find(ReadOnlySpan<object> path)
    {
        Node? found = root;
        foreach (object part in path)
        {
            Node? next = (found, part) switch
            {
                (MapNode map, string key) => map.Find(key),
                (ListNode list, int item) when item < list.Items.Count => list.Items[item],
                _ => null, // A single condition stands where a list of them may: its item 0 is the condition itself.
            };
            found = next ?? found;
        }
        return found;
    }
}
