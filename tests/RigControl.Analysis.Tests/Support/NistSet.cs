using System.Globalization;
using System.Text.RegularExpressions;

namespace RigControl.Analysis.Tests.Support;

/// <summary>One of the Statistical Reference Datasets of NIST: certified values and data.</summary>
internal sealed partial class NistSet
{
    private readonly string[] _lines;

    private NistSet(string[] lines) => _lines = lines;

    public static NistSet Load(string folder, string name) =>
        new(File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "reference", "nist_strd", folder, name + ".dat")));

    /// <summary>Rows of numbers below the last line that begins with Data.</summary>
    public double[][] Data() =>
        [.. _lines[Array.FindLastIndex(_lines, l => l.StartsWith("Data", StringComparison.Ordinal))..].Select(Numbers).Where(n => n.Length > 0)];

    /// <summary>Rows <c>b1 = start start parameter deviation</c>.</summary>
    public double[][] Nonlinear() => [.. _lines[40..60].Where(l => l.Contains('=') && Parameter().IsMatch(l)).Select(l => Numbers(l[(l.IndexOf('=', StringComparison.Ordinal) + 1)..]))];

    /// <summary>Rows <c>B0 estimate deviation</c>.</summary>
    public double[][] Linear() => [.. _lines[30..52].Where(l => Coefficient().IsMatch(l)).Select(l => Numbers(Coefficient().Replace(l, "")))];


    /// <summary>The last number of the first line that contains a label.</summary>
    public double Last(string label) => double.Parse(
        _lines.First(l => l.Contains(label, StringComparison.Ordinal)).Split(' ', StringSplitOptions.RemoveEmptyEntries)[^1], CultureInfo.InvariantCulture);

    private static double[] Numbers(string line)
    {
        string[] words = line.Split([' ', '\t'], StringSplitOptions.RemoveEmptyEntries);
        return words.All(w => double.TryParse(w, NumberStyles.Float, CultureInfo.InvariantCulture, out _))
            ? [.. words.Select(w => double.Parse(w, CultureInfo.InvariantCulture))]
            : [];
    }

    [GeneratedRegex(@"^\s*b\d+\s*=")]
    private static partial Regex Parameter();

    [GeneratedRegex(@"^\s*B\d+\s")]
    private static partial Regex Coefficient();
}
