using System.Globalization;
using System.Net;
using System.Text;

namespace RigControl.Reports.Pages;

/// <summary>Writes a page. Whatever is not written as raw is escaped.</summary>
internal sealed class Html
{
    private readonly StringBuilder _text = new();

    public static string Escape(string text) => WebUtility.HtmlEncode(text);

    public Html Raw(string text)
    {
        _text.Append(text);
        return this;
    }

    public Html Element(string name, string text, string? kind = null) =>
        Raw(kind is null ? $"<{name}>" : $"<{name} class=\"{kind}\">").Raw(Escape(text)).Raw($"</{name}>\n");

    /// <summary>A part with its heading, left out where there is nothing in it.</summary>
    public Html Part(string heading, bool any, Action<Html> write)
    {
        if (!any)
            return this;
        Raw("<section>\n").Element("h2", heading);
        write(this);
        return Raw("</section>\n");
    }

    public Html List(IEnumerable<string> items)
    {
        Raw("<ul>\n");
        foreach (string item in items)
            Element("li", item);
        return Raw("</ul>\n");
    }

    /// <summary>A table; a column whose head begins with <c>#</c> holds numbers.</summary>
    /// <param name="kind">Class of the table, if any.</param>
    public Html Table(IReadOnlyList<string> heads, IEnumerable<IReadOnlyList<string>> rows, string kind = "")
    {
        bool[] numbers = [.. heads.Select(h => h.StartsWith('#'))];
        Raw($"<div class=\"wide {kind}\"><table>\n<thead><tr>");
        for (int i = 0; i < heads.Count; i++)
            Raw(numbers[i] ? $"<th class=\"number\" scope=\"col\">{Escape(heads[i][1..])}</th>" : $"<th scope=\"col\">{Escape(heads[i])}</th>");
        Raw("</tr></thead>\n<tbody>\n");
        foreach (IReadOnlyList<string> row in rows)
        {
            Raw("<tr>");
            for (int i = 0; i < row.Count; i++)
                Raw(numbers[i] ? "<td class=\"number\">" : "<td>").Raw(Escape(row[i])).Raw("</td>");
            Raw("</tr>\n");
        }

        return Raw("</tbody></table></div>\n");
    }

    public static string Page(string title, Html body) =>
        $"<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{Escape(title)}</title>\n<style>\n{Style.Sheet}</style>\n</head>\n<body>\n<main>\n{body._text}</main>\n</body>\n</html>\n";

    public static string Number(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
