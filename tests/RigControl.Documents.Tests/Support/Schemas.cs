using System.Text.Json;
using Json.Schema;
using RigControl.Documents.Text;

namespace RigControl.Documents.Tests.Support;

/// <summary>The published schemas, as an editor applies them.</summary>
internal static class Schemas
{
    private static readonly Dictionary<DocumentKind, JsonSchema> All = new[] { DocumentKind.Procedure, DocumentKind.Article, DocumentKind.Rig, DocumentKind.Rules }
        .ToDictionary(kind => kind, kind => JsonSchema.FromText(Repository.Read($"shared/schemas/{Words.Of(kind)}.schema.json")));

    /// <summary>Whether a text passes; null where it is no tree that a schema could be applied to.</summary>
    public static bool? Accepts(DocumentKind kind, string text)
    {
        var problems = new ProblemList("f");
        Node? root = NodeLoader.Load(text, problems);
        if (root is null || !problems.IsEmpty)
            return null;
        using var json = JsonDocument.Parse(NodeToJson.Convert(root)?.ToJsonString() ?? "null");
        return All[kind].Evaluate(json.RootElement).IsValid;
    }
}
