using System.Globalization;

namespace RigControl.Logbook.Texts;

/// <summary>Wall-clock times as text in UTC to 100 ns: they sort as text and keep every tick.</summary>
internal static class WallTime
{
    private const string Format = "yyyy-MM-dd'T'HH:mm:ss.fffffff'Z'";

    public static string Write(DateTimeOffset time) => time.ToUniversalTime().ToString(Format, CultureInfo.InvariantCulture);

    public static DateTimeOffset Read(string text) =>
        DateTimeOffset.TryParseExact(text, Format, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset time)
            ? time
            : throw new InvalidDataException($"'{text}' is no time");
}
