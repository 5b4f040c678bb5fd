using System.Buffers;
using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace RigControl.Telemetry.Payloads;

/// <summary>JSON as every payload writes it: small, UTF-8, times in UTC, and never a number that is none.</summary>
internal static class Json
{
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static byte[] Object(Action<Utf8JsonWriter> write)
    {
        ArrayBufferWriter<byte> buffer = new();
        using (Utf8JsonWriter json = new(buffer, Options))
        {
            json.WriteStartObject();
            write(json);
            json.WriteEndObject();
        }

        return buffer.WrittenSpan.ToArray();
    }

    /// <summary>The wall clock as RFC 3339 in UTC, to the millisecond.</summary>
    public static string Time(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);

    /// <summary>Seconds to the microsecond: the digits below are those of binary fractions.</summary>
    public static double Seconds(TimeSpan time) => Math.Round(time.TotalSeconds, 6);

    /// <summary>A number, or null where it is not finite.</summary>
    public static void WriteNumber(this Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number && double.IsFinite(number))
            json.WriteNumber(name, number);
        else
            json.WriteNull(name);
    }

    /// <summary>A value of an event: number, switch or text; null where a number is not finite.</summary>
    public static void WriteAny(this Utf8JsonWriter json, string name, object value)
    {
        switch (value)
        {
            case bool flag: json.WriteBoolean(name, flag); break;
            case double number: WriteNumber(json, name, (double?)number); break;
            case float number: WriteNumber(json, name, (double?)number); break;
            case ulong number: json.WriteNumber(name, number); break;
            case sbyte or byte or short or ushort or int or uint or long: json.WriteNumber(name, Convert.ToInt64(value, CultureInfo.InvariantCulture)); break;
            default: json.WriteString(name, Convert.ToString(value, CultureInfo.InvariantCulture)); break;
        }
    }
}
