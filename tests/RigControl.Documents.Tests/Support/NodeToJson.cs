using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using RigControl.Documents.Text;

namespace RigControl.Documents.Tests.Support;

/// <summary>
/// What an editor that follows YAML 1.2 hands to a JSON Schema: plain values resolved by the core schema (YAML 1.2.2, section 10.3.2,
/// from memory), so <c>no</c> is a text there and <c>3</c> a number.
/// </summary>
internal static partial class NodeToJson
{
    public static JsonNode? Convert(Node node) => node switch
    {
        MapNode map => new JsonObject(map.Entries.Select(e => KeyValuePair.Create(e.Key, Convert(e.Value)))),
        ListNode list => new JsonArray([.. list.Items.Select(Convert)]),
        TextNode { IsNothing: true } => null,
        TextNode text => Plain(text.Text),
        _ => throw new InvalidOperationException("A broken node has no value."),
    };

    // Quoted texts in the corpus are never numbers, so quoting need not be looked at.
    private static JsonNode? Plain(string text) => text switch
    {
        "null" or "Null" or "NULL" or "~" => null,
        "true" or "True" or "TRUE" => true,
        "false" or "False" or "FALSE" => false,
        _ when Whole().IsMatch(text) => long.Parse(text, CultureInfo.InvariantCulture),
        _ when Number().IsMatch(text) => double.Parse(text, CultureInfo.InvariantCulture),
        _ => text,
    };

    [GeneratedRegex(@"^[-+]?[0-9]+\z")]
    private static partial Regex Whole();

    [GeneratedRegex(@"^[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?\z")]
    private static partial Regex Number();
}
