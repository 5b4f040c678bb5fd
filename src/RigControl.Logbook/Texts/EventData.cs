using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;

namespace RigControl.Logbook.Texts;

/// <summary>
/// An event's named values as a JSON object. Whole numbers come back as long (ulong above its range), doubles as double
/// bit for bit (a double is written with a point or an exponent, one that is not finite as {"double":"NaN"}), switches as
/// bool, and everything else as text.
/// </summary>
internal static class EventData
{
    private const string NotFinite = "double";

    public static string Write(IReadOnlyDictionary<string, object> data)
    {
        if (data.Count == 0)
            return "{}";
        ArrayBufferWriter<byte> buffer = new();
        using (Utf8JsonWriter json = new(buffer))
        {
            json.WriteStartObject();
            foreach ((string name, object value) in data)
            {
                json.WritePropertyName(name);
                WriteValue(json, value);
            }
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    private static void WriteValue(Utf8JsonWriter json, object value)
    {
        switch (value)
        {
            case bool flag: json.WriteBooleanValue(flag); break;
            case double number: WriteDouble(json, number); break;
            case float number: WriteDouble(json, number); break;
            case ulong number: json.WriteNumberValue(number); break;
            case sbyte or byte or short or ushort or int or uint or long: json.WriteNumberValue(Convert.ToInt64(value, CultureInfo.InvariantCulture)); break;
            default: json.WriteStringValue(Convert.ToString(value, CultureInfo.InvariantCulture)); break;
        }
    }

    private static void WriteDouble(Utf8JsonWriter json, double value)
    {
        string text = value.ToString("R", CultureInfo.InvariantCulture);
        if (!double.IsFinite(value))
        {
            json.WriteStartObject();
            json.WriteString(NotFinite, text);
            json.WriteEndObject();
        }
        else
        {
            json.WriteRawValue(text.AsSpan().ContainsAny('.', 'E') ? text : text + ".0");
        }
    }

    /// <exception cref="InvalidDataException">The text is no event's data.</exception>
    public static IReadOnlyDictionary<string, object> Read(string text)
    {
        try
        {
            using JsonDocument json = JsonDocument.Parse(text);
            return json.RootElement.EnumerateObject().ToDictionary(value => value.Name, value => ReadValue(value.Value));
        }
        catch (Exception fault) when (fault is JsonException or InvalidOperationException or FormatException or KeyNotFoundException)
        {
            throw new InvalidDataException($"an event's data cannot be read: {fault.Message}", fault);
        }
    }

    private static object ReadValue(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.True => true,
        JsonValueKind.False => false,
        JsonValueKind.Number => ReadNumber(value),
        JsonValueKind.Object => double.Parse(value.GetProperty(NotFinite).GetString() ?? "", CultureInfo.InvariantCulture),
        _ => value.GetString() ?? "",
    };

    private static object ReadNumber(JsonElement value)
    {
        if (value.GetRawText().AsSpan().ContainsAny('.', 'E', 'e'))
            return value.GetDouble();
        return value.TryGetInt64(out long number) ? number : value.GetUInt64();
    }
}
