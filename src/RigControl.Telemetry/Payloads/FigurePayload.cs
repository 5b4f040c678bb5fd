using System.Text.Json;
using RigControl.Model.Records;

namespace RigControl.Telemetry.Payloads;

/// <summary>A run's end and its figures, in one message.</summary>
internal static class FigurePayload
{
    public static byte[] Of(string run, RunEnd end, IReadOnlyList<Figure> figures) => Json.Object(json =>
    {
        json.WriteString("run", run);
        json.WriteString("outcome", Outcome(end.Outcome));
        json.WriteString("time", Json.Time(end.EndedAt));
        json.WriteString("note", end.Note);
        json.WriteStartArray("figures");
        foreach (Figure figure in figures)
            Write(json, figure);
        json.WriteEndArray();
    });

    private static void Write(Utf8JsonWriter json, Figure figure)
    {
        json.WriteStartObject();
        json.WriteString("name", figure.Name);
        json.WriteNumber("value", figure.Value);
        json.WriteString("unit", Ucum.Of(figure.Unit));
        json.WriteNumber("standardUncertainty", figure.StandardUncertainty);
        if (figure.Interval95 is { } interval && double.IsFinite(interval.Low) && double.IsFinite(interval.High))
        {
            json.WriteStartArray("interval95");
            json.WriteNumberValue(interval.Low);
            json.WriteNumberValue(interval.High);
            json.WriteEndArray();
        }
        else
        {
            json.WriteNull("interval95");
        }

        json.WriteNumber("repeat", figure.Repeat);
        json.WriteString("method", figure.Method);
        json.WriteString("note", figure.Note);
        json.WriteEndObject();
    }

    private static string Outcome(RunOutcome outcome) => outcome switch
    {
        RunOutcome.Completed => "completed",
        RunOutcome.Refused => "refused",
        RunOutcome.SafeStop => "safe-stop",
        RunOutcome.Failed => "failed",
        _ => "broken-off",
    };
}
