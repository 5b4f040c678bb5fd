using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace RigControl.Cli.Output;

/// <summary>One JSON document on standard output.</summary>
internal static class JsonText
{
    private static readonly JsonSerializerOptions Options = new()
    {
        WriteIndented = true,
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        NumberHandling = JsonNumberHandling.Strict,
    };

    public static void Write(object document) => Console.Out.WriteLine(Of(document));

    public static string Of(object document) => JsonSerializer.Serialize(document, Options);
}
