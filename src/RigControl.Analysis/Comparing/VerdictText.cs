using System.Globalization;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Comparing;

/// <summary>What a comparison came to, as a sentence that a builder can decide on.</summary>
public static class VerdictText
{
    public static string Of(ComparedFigure figure) => figure.Verdict switch
    {
        Verdict.Changed => $"{Change(figure)}: more than noise",
        Verdict.Perhaps => $"{Change(figure)}: perhaps; among so many figures one may look like this by chance",
        Verdict.NoDifference => $"{figure.Name}: no difference seen; this comparison would have shown {Amount(figure, figure.Detectable)}",
        _ => $"{figure.Name}: cannot be told from one value on each side; how well it repeats is unknown",
    };

    /// <summary>How it changed, with the 95 % interval, without a verdict.</summary>
    public static string Change(ComparedFigure figure)
    {
        double half = figure.Difference.Interval95 is { } i ? (i.High - i.Low) / 2 : 0;
        (bool relative, double scale) = Scale(figure);
        (string shown, string around) = Rounding.Of(Math.Abs(figure.Difference.Value) * scale, half * scale);
        string unit = relative ? "%" : figure.Unit;
        return $"{figure.Name} {Direction(figure)} by {shown} {unit}{(around.Length > 0 ? $" ± {around} {unit}" : "")}";
    }

    private static string Amount(ComparedFigure figure, double amount)
    {
        (bool relative, double scale) = Scale(figure);
        return $"{(amount * scale).ToString("G2", CultureInfo.InvariantCulture)} {(relative ? "%" : figure.Unit)}";
    }

    /// <summary>Whether its difference is told as a share: one of a value near nothing says nothing, and of a temperature or a share neither.</summary>
    public static bool IsShare(ComparedFigure figure)
    {
        double mean = Math.Abs(figure.A.Mean);
        return figure.Unit is not ("%" or "degC" or "K" or "1") && mean > Math.Abs(figure.Difference.Value) * 0.2 && mean > 0;
    }

    private static (bool Relative, double Scale) Scale(ComparedFigure figure)
    {
        bool relative = IsShare(figure);
        return (relative, relative ? 100 / Math.Abs(figure.A.Mean) : 1);
    }

    private static string Direction(ComparedFigure figure)
    {
        bool more = figure.Difference.Value > 0;
        return figure.Unit is "s" or "ms" or "us" ? (more ? "longer" : "shorter") : more ? "higher" : "lower";
    }
}
