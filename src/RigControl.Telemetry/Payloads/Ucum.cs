namespace RigControl.Telemetry.Payloads;

/// <summary>The project's unit symbols as codes of the Unified Code for Units of Measure. Codes from memory; a test works each out with the standard's own table.</summary>
internal static class Ucum
{
    // Symbols that are codes already stand in no table.
    private static readonly Dictionary<string, string> Codes = new()
    {
        ["rpm"] = "{rev}/min", ["Ah"] = "A.h", ["mAh"] = "mA.h", ["Wh"] = "W.h", ["degC"] = "Cel", ["degF"] = "[degF]",
        ["lbf"] = "[lbf_av]", ["ozf.in"] = "[oz_av].[g].[in_i]", ["lbf.in"] = "[lbf_av].[in_i]", ["lb"] = "[lb_av]", ["oz"] = "[oz_av]",
        ["in"] = "[in_i]", ["ft"] = "[ft_i]", ["mph"] = "[mi_i]/h", ["ft/s"] = "[ft_i]/s", ["rpm/V"] = "{rev}/min/V",
    };

    private static readonly HashSet<string> Same =
    [
        "rad/s", "deg/s", "Hz", "V", "mV", "A", "mA", "W", "Ohm", "mOhm", "J", "K", "K/W", "N", "kgf", "N.m", "mN.m", "N.m.s", "N.m.s2", "N.m/A", "g", "kg",
        "m", "mm", "m/s", "km/h", "m/s2", "deg", "us", "ms", "s", "%", "kg.m2", "g.mm2", "1",
    ];

    /// <summary>The code of a unit. A unit of a plugin's own is told as an annotation, which the standard leaves to its writer.</summary>
    public static string Of(string unit) => Codes.TryGetValue(unit, out string? code) ? code : Same.Contains(unit) ? unit : $"{{{Plain(unit)}}}";

    /// <summary>Whether the unit is one of the project's and has a code.</summary>
    public static bool Knows(string unit) => Codes.ContainsKey(unit) || Same.Contains(unit);

    // An annotation holds neither braces nor anything beyond printable ASCII.
    private static string Plain(string unit) => new([.. unit.Where(c => c is > ' ' and < '\x7f' and not ('{' or '}'))]);
}
