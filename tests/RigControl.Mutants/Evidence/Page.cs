using System.Globalization;
using System.Text;

namespace RigControl.Mutants.Evidence;

/// <summary>Keeps what was found as docs/evidence/mutants.md. Each command writes its own part and leaves the other as it is.</summary>
public static class Page
{
    /// <summary>The page, from the root of the checkout.</summary>
    public const string Place = "docs/evidence/mutants.md";

    private const string Head = "# Would the tests notice?\n\nMistakes put into copies of the sources on purpose, one at a time, and the test that notices.\n";

    /// <summary>Writes one part of the page.</summary>
    public static void Write(string title, string text)
    {
        string path = Checkout.At(Place);
        string page = File.Exists(path) ? File.ReadAllText(path) : Head;
        File.WriteAllText(path, With(page, title, text));
    }

    /// <summary>The page with one of its parts replaced, or put at its end where there was none.</summary>
    public static string With(string page, string title, string text)
    {
        string[] parts = page.Split("\n## ");
        string part = $"{title}\n\n{text.TrimEnd('\n')}\n";
        int place = Array.FindIndex(parts, p => p.StartsWith(title + "\n", StringComparison.Ordinal));
        return string.Join("\n## ", place < 0 ? [.. parts, part] : [.. parts[..place], part, .. parts[(place + 1)..]]);
    }

    /// <summary>Adds a line with numbers as every reader writes them.</summary>
    internal static void Line(this StringBuilder text, FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');

    /// <summary>Text of a program as a cell of a table.</summary>
    internal static string Code(string text) => "`" + Changing.Mutation.OneLine(text).Replace("|", "\\|", StringComparison.Ordinal) + "`";
}
