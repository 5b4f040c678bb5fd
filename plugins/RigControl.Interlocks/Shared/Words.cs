using System.Globalization;
using RigControl.Model.Signals;

namespace RigControl.Interlocks.Shared;

/// <summary>Channels, numbers and units as a person at the bench reads them.</summary>
internal static class Words
{
    // A double holds no more.
    private const int MostDecimals = 15;

    /// <summary><c>motor.temperature</c> becomes "motor temperature".</summary>
    public static string Name(Channel channel) => channel.Name.Replace('.', ' ').Replace('-', ' ');

    /// <summary>"motor 81.3 °C": the unit already says which quantity it is, so the last part of the name is left out.</summary>
    /// <param name="limit">What the value is held against: digits are added until the two can be told apart.</param>
    public static string Reading(Channel channel, double value, double limit)
    {
        int dot = channel.Name.LastIndexOf('.');
        string owner = dot < 0 ? Name(channel) : channel.Name[..dot].Replace('.', ' ').Replace('-', ' ');
        return $"{owner} {Apart(value, limit)}{Unit(channel.Declaration.Unit)}";
    }

    /// <summary>"recorder backlog 62 %": the whole name, where its last part is what counts.</summary>
    public static string Full(Channel channel, double value, double limit) =>
        $"{Name(channel)} {Apart(value, limit)}{Unit(channel.Declaration.Unit)}";

    /// <summary>"1.2 A", with as many digits as tell it apart from <paramref name="limit"/>.</summary>
    public static string Quantity(double value, double limit, string unit) => Apart(value, limit) + Unit(unit);

    public static string Quantity(double value, string unit) => Number(value) + Unit(unit);

    public static string Duration(TimeSpan time) => Number(time.TotalSeconds) + " s";

    /// <summary>Three or four figures, without trailing zeros.</summary>
    public static string Number(double value) => double.IsFinite(value) ? Round(value, DecimalsFor(value)) : "no number";

    /// <summary>Rounded, but never so far that it looks like <paramref name="limit"/> when it is not.</summary>
    public static string Apart(double value, double limit)
    {
        string text = Number(value);
        for (int decimals = DecimalsFor(value); text == Number(limit) && value != limit && decimals < MostDecimals; decimals++)
            text = Round(value, decimals + 1);
        return text;
    }

    private static int DecimalsFor(double value) => Math.Abs(value) switch
    {
        >= 1000 => 0,
        >= 10 => 1,
        >= 1 => 2,
        _ => 3,
    };

    // Adding zero turns a rounded minus zero into plain zero.
    private static string Round(double value, int decimals) => Math.Abs(value) >= 1e9
        ? value.ToString("G4", CultureInfo.InvariantCulture)
        : (Math.Round(value, decimals) + 0.0).ToString("0." + new string('#', decimals), CultureInfo.InvariantCulture);

    private static string Unit(string unit) => unit switch
    {
        "1" => "",
        "degC" => " °C",
        "degF" => " °F",
        "us" => " µs",
        "Ohm" => " Ω",
        _ => " " + unit,
    };
}
