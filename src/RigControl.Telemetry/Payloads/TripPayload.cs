using System.Globalization;
using RigControl.Model.Records;

namespace RigControl.Telemetry.Payloads;

/// <summary>An active trip: what tripped, on which reading, when, and who on the network has seen it.</summary>
/// <param name="Id">Interlock, or one of the kernel's own causes.</param>
/// <param name="Channel">Channel that showed it; empty where there is none.</param>
/// <param name="At">When it showed, s since the run's clock started.</param>
/// <param name="Reaction">Until the stop output was out, s; null where nobody measured it.</param>
internal sealed record TripPayload(string Id, string Channel, string Reason, double At, double? Reaction, DateTimeOffset Time)
{
    /// <summary>The clients that have seen it, in order.</summary>
    public IReadOnlyList<string> SeenBy { get; init; } = [];

    public static TripPayload Of(RigEvent trip, DateTimeOffset time) => new(
        trip.Subject, trip.Data.TryGetValue("channel", out object? channel) ? (string)channel : "", trip.Text,
        Number(trip, "at") ?? trip.At.TotalSeconds, Number(trip, "reaction"), time);

    public byte[] Of(string run) => Json.Object(json =>
    {
        json.WriteString("run", run);
        json.WriteString("trip", Id);
        json.WriteString("channel", Channel);
        json.WriteString("reason", Reason);
        json.WriteNumber("at", (double?)Math.Round(At, 6));
        json.WriteNumber("reaction", Reaction is { } seconds ? Math.Round(seconds, 6) : null);
        json.WriteString("time", Json.Time(Time));
        json.WriteStartArray("seenBy");
        foreach (string client in SeenBy)
            json.WriteStringValue(client);
        json.WriteEndArray();
    });

    private static double? Number(RigEvent trip, string name) =>
        trip.Data.TryGetValue(name, out object? value) ? Convert.ToDouble(value, CultureInfo.InvariantCulture) : null;
}
