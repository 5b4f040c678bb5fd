using System.Text.RegularExpressions;
using RigControl.Documents.Tests.Support;
using RigControl.Documents.Values;

namespace RigControl.Documents.Tests.Corpus;

/// <summary>The ranges that the document names are the ones that are kept: both ends are taken, and a little beyond is not.</summary>
public partial class DocumentedRangeTests
{
    /// <summary>The section of the document, the key there, and the passage of the sample that holds its value (between the bars).</summary>
    public static TheoryData<DocumentKind, string, string> Keys { get; } =
    [
        (DocumentKind.Procedure, "within", "within: |10 s|"),
        (DocumentKind.Procedure, "throttle", "throttle: |60 %|"),
        (DocumentKind.Procedure, "ramp", "ramp: |2 s|"),
        (DocumentKind.Procedure, "timeout", "timeout: |8 s|"),
        (DocumentKind.Procedure, "for", "- hold: { for: |5 s|"),
        (DocumentKind.Procedure, "after", "after: |2 s|"),
        (DocumentKind.Procedure, "to-speed", "to-speed: |5000 rpm|"),
        (DocumentKind.Procedure, "settled-within", "settled-within: |5 %|"),
        (DocumentKind.Procedure, "match", "match: |180 s|"),
        (DocumentKind.Procedure, "duty", "duty: |50 %|"),
        (DocumentKind.Procedure, "ambient", "ambient: |25 degC|"),
        (DocumentKind.Article, "stop", "stop: |1000 us|"),
        (DocumentKind.Article, "minimum", "minimum: |1000 us|"),
        (DocumentKind.Article, "maximum", "maximum: |2000 us|"),
        (DocumentKind.Article, "arming-time", "arming-time: |2 s|"),
        (DocumentKind.Article, "mass", "mass: |180 g|"),
        (DocumentKind.Article, "tip-radius", "tip-radius: |45 mm|"),
        (DocumentKind.Article, "inertia", "inertia: |0.00018225 kg.m2|"),
        (DocumentKind.Article, "maximum-speed", "maximum-speed: |10000 rpm|"),
        (DocumentKind.Article, "kv", "kv: |1000 rpm/V|"),
        (DocumentKind.Article, "winding-resistance", "winding-resistance: |80 mOhm|"),
        (DocumentKind.Article, "no-load-current", "no-load-current: |1.2 A|"),
        (DocumentKind.Article, "current-limit", "current-limit: |30 A|"),
        (DocumentKind.Article, "capacity", "capacity: |1300 mAh|"),
        (DocumentKind.Article, "resistance", "mAh, resistance: |30 mOhm|"),
        (DocumentKind.Article, "stopping-time", "stopping-time: |0.5 s|"),
        (DocumentKind.Article, "longest-coast-down", "longest-coast-down: |60 s|"),
        (DocumentKind.Article, "fastest-rise", "fastest-rise: |0.5 s|"),
        (DocumentKind.Rig, "scan", "scan: |200 Hz|"),
        (DocumentKind.Rig, "rating", "rating: |600 J|"),
        (DocumentKind.Rig, "below", "below: |60 rpm|"),
        (DocumentKind.Rig, "for", "for: |1 s|"),
        (DocumentKind.Rig, "opening-time", "opening-time: |20 s|"),
        (DocumentKind.Rig, "margin", "margin: |50 %|"),
        (DocumentKind.Rig, "distance", "distance: |400 mm|"),
        (DocumentKind.Rig, "gap", "gap: |20 mm|"),
        (DocumentKind.Rules, "class-mass", "class-mass: { value: |1.5 kg|"),
        (DocumentKind.Rules, "tip-speed", "value: |50 m/s|"),
        (DocumentKind.Rules, "stopping-time", "stopping-time: { value: |60 s|"),
        (DocumentKind.Rules, "voltage", "voltage: { value: |30 V|"),
    ];

    [Theory, MemberData(nameof(Keys))]
    public void A_range_is_kept_as_the_document_names_it(DocumentKind kind, string key, string passage)
    {
        (Quantity lowest, Quantity highest) = Documented(kind, key);
        Assert.False(IsOutOfRange(kind, passage, lowest, 0), $"{lowest} is documented as allowed");
        Assert.False(IsOutOfRange(kind, passage, highest, 0), $"{highest} is documented as allowed");
        Assert.True(IsOutOfRange(kind, passage, lowest, -1), $"less than {lowest} is documented as refused");
        Assert.True(IsOutOfRange(kind, passage, highest, 1), $"more than {highest} is documented as refused");
    }

    private static (Quantity Lowest, Quantity Highest) Documented(DocumentKind kind, string key)
    {
        string section = Repository.Read("docs/procedure-files.md").Split("\n## ").Single(s => s.StartsWith($"{kind}\n", StringComparison.Ordinal));
        string row = section.Split('\n').First(line => line.Contains($"| `{key}` |"));
        Match range = Range().Match(row);
        Assert.True(range.Success, row);
        return (Quantity.Parse(range.Groups[1].Value)!.Value, Quantity.Parse(range.Groups[2].Value)!.Value);
    }

    /// <param name="beyond">-1 for a little less than the value, 1 for a little more, 0 for the value itself.</param>
    private static bool IsOutOfRange(DocumentKind kind, string passage, Quantity value, int beyond)
    {
        string written = $"{Number(value.Value + beyond * Math.Max(1e-3 * Math.Abs(value.Value), value.Value == 0 ? 1e-3 : 0))} {value.Unit}";
        string[] parts = passage.Split('|');
        var changed = new Wrong(passage, $"{parts[0]}{parts[1]}", $"{parts[0]}{written}", false);
        return changed.Of(kind).Any(problem => problem.Contains($"`{written}` is out of range"));
    }

    private static string Number(double value) => value.ToString("R", System.Globalization.CultureInfo.InvariantCulture);

    [GeneratedRegex(@"(-?[0-9][0-9.e-]* [A-Za-z%/.0-9]+) to ([0-9][0-9.e-]* [A-Za-z%/.0-9]+)")]
    private static partial Regex Range();
}
