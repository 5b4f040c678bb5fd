using System.Globalization;

namespace RigControl.Telemetry.Tests.Support;

/// <summary>Commands as a client writes them.</summary>
internal static class Orders
{
    private static int _number;

    public static string Stop(string? correlation = null, double expiresIn = 10, string client = "tablet") =>
        $$"""{"client":"{{client}}","correlation":"{{correlation ?? New()}}","expires":"{{In(expiresIn)}}"}""";

    public static string Acknowledge(string trip, string? correlation = null, string client = "tablet") =>
        $$"""{"client":"{{client}}","correlation":"{{correlation ?? New()}}","expires":"{{In(10)}}","trip":"{{trip}}"}""";

    public static string New() => "c" + Interlocked.Increment(ref _number).ToString(CultureInfo.InvariantCulture);

    private static string In(double seconds) => DateTimeOffset.UtcNow.AddSeconds(seconds).ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
}
