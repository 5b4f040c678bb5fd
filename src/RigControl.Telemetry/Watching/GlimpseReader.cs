using System.Buffers;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace RigControl.Telemetry.Watching;

/// <summary>Reads what rigs publish into what a watcher shows. Whatever is not as agreed changes nothing and throws nothing.</summary>
internal static partial class GlimpseReader
{
    // Twice as many as one rig has interlocks.
    private const int MostTrips = 64;

    /// <summary>The rig as it is after a message, or null where the message is not one of ours.</summary>
    /// <param name="kind">Topic below the rig.</param>
    public static RigGlimpse? After(RigGlimpse rig, string kind, ReadOnlySequence<byte> payload)
    {
        if (kind.StartsWith("trip/", StringComparison.Ordinal))
            return AfterTrip(rig, kind["trip/".Length..], payload);
        try
        {
            using JsonDocument document = JsonDocument.Parse(payload);
            JsonElement root = document.RootElement;
            return kind switch
            {
                "status" => rig with { Status = Word(root, "status") },
                "birth" => rig with { Run = Word(root, "run"), Simulated = root.GetProperty("simulated").GetBoolean() },
                "state" => rig with { State = Word(root, "state"), Phase = Word(root, "phase"), Run = Word(root, "run"), Trips = Words(root.GetProperty("trips")) },
                "data" => AfterData(rig, root),
                "heartbeat" => rig,
                _ => null,
            };
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException or FormatException)
        {
            return null;
        }
    }

    /// <summary>Site, rig and the topic below it, or null where it is no topic of a rig.</summary>
    public static (string Site, string Rig, string Kind)? Split(string topic) =>
        Pattern().Match(topic) is { Success: true } m ? (m.Groups[1].Value, m.Groups[2].Value, m.Groups[3].Value) : null;

    private static RigGlimpse? AfterTrip(RigGlimpse rig, string id, ReadOnlySequence<byte> payload)
    {
        Dictionary<string, string> reasons = new(rig.Reasons);
        reasons.Remove(id);
        if (payload.IsEmpty || reasons.Count >= MostTrips)
            return rig with { Reasons = reasons };
        try
        {
            using JsonDocument document = JsonDocument.Parse(payload);
            reasons[id] = Plain(document.RootElement.GetProperty("reason").GetString() ?? "");
            return rig with { Reasons = reasons };
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException)
        {
            return null;
        }
    }

    private static RigGlimpse AfterData(RigGlimpse rig, JsonElement root)
    {
        if (!root.TryGetProperty("tightest", out JsonElement tightest))
            return rig;
        JsonElement margin = tightest.GetProperty("margin");
        return rig with
        {
            Tightest = Word(tightest, "interlock"), Objects = tightest.GetProperty("objects").GetBoolean(),
            Margin = margin.ValueKind == JsonValueKind.Number ? margin.GetDouble() : null,
        };
    }

    private static string Word(JsonElement root, string name) =>
        root.GetProperty(name).GetString() is { } text && WordPattern().IsMatch(text) ? text : throw new FormatException(name);

    private static string[] Words(JsonElement list) =>
        [.. list.EnumerateArray().Take(MostTrips).Select(e => e.GetString() is { } t && WordPattern().IsMatch(t) ? t : throw new FormatException("trips"))];

    // A terminal obeys control characters; nobody on the network may write them to it.
    private static string Plain(string text) => new([.. text.Take(200).Select(c => char.IsControl(c) ? ' ' : c)]);

    [GeneratedRegex(@"^rigcontrol/1/([a-z0-9-]{1,64})/([a-z0-9-]{1,64})/([a-z0-9/-]{1,80})\z", RegexOptions.CultureInvariant)]
    private static partial Regex Pattern();

    [GeneratedRegex(@"^[A-Za-z0-9-]{1,64}\z", RegexOptions.CultureInvariant)]
    private static partial Regex WordPattern();
}
