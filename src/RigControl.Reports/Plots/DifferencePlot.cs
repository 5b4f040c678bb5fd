using System.Globalization;
using System.Net;
using System.Text;
using RigControl.Analysis.Comparing;

namespace RigControl.Reports.Plots;

/// <summary>
/// Differences with their 95 % intervals as shares of the first side, one below the other: a filled dot is more than noise, a
/// hollow one is not. Drawn in the colours of the page, so that it reads on dark and on paper.
/// </summary>
internal static class DifferencePlot
{
    private const int Width = 560;
    private const int Left = 170;
    private const int Right = 24;
    private const int Row = 26;
    private const int Top = 8;
    private const int Foot = 34;

    /// <summary>Null where no figure can be drawn as a share of the first side.</summary>
    public static string? Svg(IReadOnlyList<ComparedFigure> figures, string first)
    {
        (ComparedFigure Figure, double Middle, double Low, double High)[] rows = [.. figures.Where(Drawable).Select(Share)];
        if (rows.Length == 0)
            return null;
        double low = Math.Min(0, rows.Min(r => r.Low)), high = Math.Max(0, rows.Max(r => r.High));
        double step = StepOf(Math.Max(high - low, 1e-9));
        (low, high) = (Math.Floor(low / step) * step, Math.Ceiling(high / step) * step);
        double Place(double share) => Left + (share - low) / (high - low) * (Width - Left - Right);
        int bottom = Top + rows.Length * Row;
        StringBuilder svg = new();
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width} {bottom + Foot}\" role=\"img\" aria-label=\"differences with their 95 % intervals\">");
        for (int i = 0; low + i * step <= high + step / 2; i++)
        {
            double mark = low + i * step, x = Place(mark);
            bool nothing = Math.Abs(mark) < step / 2;
            svg.Append(CultureInfo.InvariantCulture, $"<path d=\"M{x:0.#} {Top}V{bottom}\" stroke=\"currentColor\" stroke-width=\"{(nothing ? 1.6 : 0.5)}\" opacity=\"{(nothing ? 1 : 0.35)}\"/><text x=\"{x:0.#}\" y=\"{bottom + 14}\" text-anchor=\"middle\">{(nothing ? 0 : mark):0.######}</text>");
        }

        for (int i = 0; i < rows.Length; i++)
            Draw(svg, rows[i], Top + i * Row + Row / 2, Place);
        svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{(Left + Width - Right) / 2}\" y=\"{bottom + 30}\" text-anchor=\"middle\">% of {WebUtility.HtmlEncode(first)}</text>");
        return svg.Append("</svg>").ToString();
    }

    private static bool Drawable(ComparedFigure f) => f.Difference.Interval95 is not null && VerdictText.IsShare(f);

    private static (ComparedFigure, double, double, double) Share(ComparedFigure f)
    {
        double scale = 100 / Math.Abs(f.A.Mean);
        (double low, double high) = f.Difference.Interval95!.Value;
        return (f, f.Difference.Value * scale, low * scale, high * scale);
    }

    private static void Draw(StringBuilder svg, (ComparedFigure Figure, double Middle, double Low, double High) row, int y, Func<double, double> place)
    {
        (double low, double high) = (place(row.Low), place(row.High));
        string filling = row.Figure.Verdict == Verdict.Changed ? "currentColor" : "var(--paper)";
        svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{Left - 12}\" y=\"{y + 4}\" text-anchor=\"end\">{WebUtility.HtmlEncode(row.Figure.Name)}</text>");
        svg.Append(CultureInfo.InvariantCulture, $"<path d=\"M{low:0.#} {y}H{high:0.#}M{low:0.#} {y - 5}v10M{high:0.#} {y - 5}v10\" stroke=\"currentColor\" stroke-width=\"1.6\" fill=\"none\"/>");
        svg.Append(CultureInfo.InvariantCulture, $"<circle cx=\"{place(row.Middle):0.#}\" cy=\"{y}\" r=\"4.5\" fill=\"{filling}\" stroke=\"currentColor\" stroke-width=\"1.6\"/>");
    }

    // 1, 2 or 5 times a power of ten, some five of them over the whole.
    private static double StepOf(double span)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(span / 5)));
        double times = span / 5 / power;
        return power * (times <= 1 ? 1 : times <= 2 ? 2 : times <= 5 ? 5 : 10);
    }
}
