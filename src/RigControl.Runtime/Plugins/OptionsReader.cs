using System.Reflection;
using System.Runtime.CompilerServices;
using RigControl.Contracts;
using RigControl.Model.Rig;

namespace RigControl.Runtime.Plugins;

/// <summary>Reads a plugin's options class: what may be written in a rig file, and back from there into an instance.</summary>
internal static class OptionsReader
{
    // Attributes are slow to read, and never change.
    private static readonly ConditionalWeakTable<Type, IReadOnlyList<OptionDescription>> Described = [];
    private static readonly ConditionalWeakTable<Type, IReadOnlyList<(string Name, PropertyInfo Property)>> Found = [];

    public static IReadOnlyList<OptionDescription> Describe(Type options) => Described.GetValue(options, static type =>
    {
        object initial = Activator.CreateInstance(type)!;
        return [.. Properties(type).Select(p => Describe(p.Property, p.Property.GetValue(initial)))];
    });

    /// <summary>An instance with the given values; what is left out keeps its default.</summary>
    public static object Fill(Type options, IReadOnlyDictionary<string, object> values)
    {
        object instance = Activator.CreateInstance(options)!;
        foreach ((string name, PropertyInfo property) in Properties(options))
        {
            if (values.TryGetValue(name, out object? value))
                property.SetValue(instance, Convert(property.PropertyType, value));
        }

        return instance;
    }

    /// <summary>Every option with the value in force, as text for the record.</summary>
    public static IReadOnlyDictionary<string, string> Resolved(object options) => Properties(options.GetType())
        .ToDictionary(p => p.Name, p => System.Convert.ToString(p.Property.GetValue(options), System.Globalization.CultureInfo.InvariantCulture) ?? "");

    private static IReadOnlyList<(string Name, PropertyInfo Property)> Properties(Type options) => Found.GetValue(options, static type =>
        [.. type.GetProperties(BindingFlags.Public | BindingFlags.Instance)
            .Where(p => p.CanWrite && p.GetCustomAttribute<MeaningAttribute>() is not null)
            .OrderBy(p => p.MetadataToken)
            .Select(p => (OptionCheck.NameOf(p), p))]);

    private static OptionDescription Describe(PropertyInfo property, object? initial)
    {
        string meaning = property.GetCustomAttribute<MeaningAttribute>()!.Sentence;
        string name = OptionCheck.NameOf(property);
        if (property.GetCustomAttribute<QuantityAttribute>() is { } quantity)
            return new(name, meaning, OptionKind.Quantity, quantity.Unit, quantity.Minimum, quantity.Maximum, Required(initial), []);
        if (property.GetCustomAttribute<CountAttribute>() is { } count)
            return new(name, meaning, OptionKind.Count, null, count.Minimum, count.Maximum, initial is int n ? (long)n : null, []);
        if (property.GetCustomAttribute<ChannelNameAttribute>() is not null)
            return new(name, meaning, OptionKind.Channel, null, 0, 0, Required(initial), []);
        Type type = Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType;
        if (type.IsEnum)
            return new(name, meaning, OptionKind.Choice, null, 0, 0, initial is null ? null : OptionCheck.Kebab(initial.ToString()!), [.. Enum.GetNames(type).Select(OptionCheck.Kebab)]);
        return new(name, meaning, type == typeof(bool) ? OptionKind.Switch : OptionKind.Text, null, 0, 0, Required(initial), []);
    }

    // Not a number and the empty text stand for "no default": the option must be written.
    private static object? Required(object? initial) => initial is double.NaN or "" ? null : initial;

    private static object Convert(Type target, object value)
    {
        Type type = Nullable.GetUnderlyingType(target) ?? target;
        if (type.IsEnum)
            return Enum.GetValues(type).Cast<object>().First(v => OptionCheck.Kebab(v.ToString()!) == (string)value);
        return System.Convert.ChangeType(value, type, System.Globalization.CultureInfo.InvariantCulture);
    }
}
