using System.Text.Json;
using System.Text.Json.Serialization;
using RigControl.Model.Records;

namespace RigControl.Logbook.Texts;

/// <summary>A run's header as JSON.</summary>
internal static class HeaderText
{
    public static string Write(RunHeader header) => JsonSerializer.Serialize(header, HeaderContext.Default.RunHeader);

    /// <exception cref="InvalidDataException">The text is no header.</exception>
    public static RunHeader Read(string text)
    {
        try
        {
            return JsonSerializer.Deserialize(text, HeaderContext.Default.RunHeader)
                ?? throw new InvalidDataException("a header is empty");
        }
        catch (JsonException fault)
        {
            throw new InvalidDataException($"a header cannot be read: {fault.Message}", fault);
        }
    }
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals)]
[JsonSerializable(typeof(RunHeader))]
internal sealed partial class HeaderContext : JsonSerializerContext;
