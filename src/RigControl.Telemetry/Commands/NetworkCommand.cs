using System.Buffers;
using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace RigControl.Telemetry.Commands;

/// <summary>A command as it was sent.</summary>
/// <param name="Client">Who says to have sent it.</param>
/// <param name="Correlation">What its receipt will carry.</param>
/// <param name="Expires">When it is void.</param>
/// <param name="Trip">Trip to acknowledge; empty for a stop.</param>
internal sealed partial record NetworkCommand(string Client, string Correlation, DateTimeOffset Expires, string Trip)
{
    /// <summary>Largest payload of a command, bytes.</summary>
    public const int Largest = 1024;

    private static readonly JsonDocumentOptions Options = new() { MaxDepth = 4 };

    /// <summary>Reads a payload; null where it is not a command. Never throws.</summary>
    public static NetworkCommand? Read(ReadOnlySequence<byte> payload, bool isAcknowledge)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(payload, Options);
            JsonElement root = document.RootElement;
            if (root.ValueKind != JsonValueKind.Object)
                return null;
            string? client = Matching(root, "client", Name());
            string? correlation = Matching(root, "correlation", Token());
            string? trip = isAcknowledge ? Matching(root, "trip", Name()) : "";
            return client is null || correlation is null || trip is null || Time(root) is not { } expires
                ? null : new NetworkCommand(client, correlation, expires, trip);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or ArgumentException)
        {
            return null;
        }
    }

    private static string? Matching(JsonElement root, string name, Regex pattern) =>
        root.TryGetProperty(name, out JsonElement value) && value.ValueKind == JsonValueKind.String && value.GetString() is { } text && pattern.IsMatch(text) ? text : null;

    private static DateTimeOffset? Time(JsonElement root) =>
        root.TryGetProperty("expires", out JsonElement value) && value.ValueKind == JsonValueKind.String
        && Rfc3339().IsMatch(value.GetString()!)
        && DateTimeOffset.TryParse(value.GetString(), CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTimeOffset time) ? time : null;

    [GeneratedRegex(@"^[a-z0-9-]{1,64}\z", RegexOptions.CultureInvariant)]
    private static partial Regex Name();

    [GeneratedRegex(@"^[A-Za-z0-9._:-]{1,64}\z", RegexOptions.CultureInvariant)]
    private static partial Regex Token();

    [GeneratedRegex(@"^\d{4}-\d\d-\d\d[Tt]\d\d:\d\d:\d\d(\.\d{1,9})?([Zz]|[+-]\d\d:\d\d)\z", RegexOptions.CultureInvariant)]
    private static partial Regex Rfc3339();
}
