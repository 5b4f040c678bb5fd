using System.Globalization;
using System.Reflection;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Logbook.Tests.Support;

/// <summary>
/// A scan record as lines of text, every field by its name and doubles by their bits. Fields are found by reflection, so that
/// one that the record gains later cannot be forgotten.
/// </summary>
internal static class Flat
{
    private const BindingFlags Fields = BindingFlags.Instance | BindingFlags.Public | BindingFlags.NonPublic;

    public static string Of(in ScanRecord record)
    {
        List<string> lines = [];
        Add(lines, "", record);
        return string.Join('\n', lines);
    }

    /// <summary>Names of the record's own fields that are not zero.</summary>
    public static IEnumerable<string> SetFields(ScanRecord record) => typeof(ScanRecord).GetFields(Fields)
        .Where(field => Lines(field.GetValue(record)!) != Lines(field.GetValue(default(ScanRecord))!))
        .Select(one => one.Name);

    public static IEnumerable<string> AllFields => typeof(ScanRecord).GetFields(Fields).Select(one => one.Name);

    private static string Lines(object value)
    {
        List<string> lines = [];
        Add(lines, "", value);
        return string.Join('\n', lines);
    }

    private static void Add(List<string> lines, string name, object value)
    {
        switch (value)
        {
            case Receipts receipts: AddAll(lines, name, receipts[..].ToArray()); break;
            case Watermarks watermarks: AddAll(lines, name, watermarks[..].ToArray()); break;
            case Demands demands: AddAll(lines, name, demands[..].ToArray()); break;
            case double number: lines.Add($"{name} {BitConverter.DoubleToUInt64Bits(number):X16}"); break;
            case TimeSpan time: lines.Add($"{name} {time.Ticks}"); break;
            case Enum: lines.Add($"{name} {Convert.ToUInt64(value, CultureInfo.InvariantCulture)}"); break;
            case IFormattable or bool: lines.Add(string.Create(CultureInfo.InvariantCulture, $"{name} {value}")); break;
            default: AddFields(lines, name, value); break;
        }
    }

    private static void AddAll<T>(List<string> lines, string name, T[] values)
    {
        for (int i = 0; i < values.Length; i++)
            Add(lines, $"{name}[{i}]", values[i]!);
    }

    private static void AddFields(List<string> lines, string name, object value)
    {
        foreach (FieldInfo field in value.GetType().GetFields(Fields))
            Add(lines, $"{name}.{field.Name}", field.GetValue(value)!);
    }
}
