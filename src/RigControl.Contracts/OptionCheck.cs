using System.Globalization;
using System.Reflection;
using System.Text.RegularExpressions;

namespace RigControl.Contracts;

/// <summary>
/// Holds options against their attributes once more, whoever filled them in: a plugin is never made with a required
/// option missing or a value out of range.
/// </summary>
public static partial class OptionCheck
{
    /// <summary>Throws <see cref="OptionException"/> with every fault of <paramref name="options"/> in one sentence.</summary>
    /// <param name="options">An object whose properties carry option attributes.</param>
    public static void Require(object options)
    {
        string[] faults = options.GetType().GetProperties().Select(p => FaultOf(p, p.GetValue(options))).OfType<string>().ToArray();
        if (faults.Length > 0)
            throw new OptionException(string.Join("; ", faults));
    }

    /// <summary>An option's name in a file: the property's name in kebab-case.</summary>
    public static string NameOf(PropertyInfo property) => Kebab(property.Name);

    /// <summary>A name of the code as a file writes it: <c>StopOutput</c> becomes <c>stop-output</c>.</summary>
    public static string Kebab(string name) => WordStart().Replace(name, "-").ToLowerInvariant();

    private static string? FaultOf(PropertyInfo property, object? value)
    {
        if (property.GetCustomAttribute<QuantityAttribute>() is { } quantity)
            return FaultOf(property, (double)value!, quantity.Minimum, quantity.Maximum, " " + quantity.Unit);
        if (property.GetCustomAttribute<CountAttribute>() is { } count)
            return FaultOf(property, value is int whole ? whole : double.NaN, count.Minimum, count.Maximum, "");
        bool isChannel = property.GetCustomAttribute<ChannelNameAttribute>() is not null;
        return isChannel && string.IsNullOrWhiteSpace((string?)value) ? $"{NameOf(property)} is missing; write the name of a channel" : null;
    }

    private static string? FaultOf(PropertyInfo property, double value, double minimum, double maximum, string unit)
    {
        if (value >= minimum && value <= maximum)
            return null;
        string range = string.Create(CultureInfo.InvariantCulture, $"{minimum}{unit} to {maximum}{unit}");
        return double.IsNaN(value)
            ? $"{NameOf(property)} is missing; write {range}"
            : string.Create(CultureInfo.InvariantCulture, $"{NameOf(property)} is {value}{unit}; write {range}");
    }

    [GeneratedRegex("(?<!^)(?=[A-Z])")]
    private static partial Regex WordStart();
}
