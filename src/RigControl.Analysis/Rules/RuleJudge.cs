using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Rules;

/// <summary>Holds figures against copied limits, each with its 95 % interval, so that nobody is told inside where a second try would say outside.</summary>
public static class RuleJudge
{
    // Standard uncertainties to each side where a figure gives no interval of its own.
    private const double Coverage = 2;

    /// <summary>Name and unit of the figures that answer a kind of limit, the limit's own unit, and how many of that one of the figure's is.</summary>
    public static (string Figure, string Unit, string LimitUnit, double Factor) FigureOf(RuleKind kind) => kind switch
    {
        RuleKind.ClassMass => ("mass", "g", "kg", 0.001),
        RuleKind.TipSpeed => ("tip-speed", "m/s", "m/s", 1),
        RuleKind.StoppingTime => ("coast-down-time", "s", "s", 1),
        RuleKind.Voltage => ("peak-voltage", "V", "V", 1),
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    /// <summary>Every limit of a set, in its order, with a verdict or the reason why there is none.</summary>
    public static IReadOnlyList<JudgedRule> Of(EventRules rules, IReadOnlyList<Figure> figures) => [.. rules.Limits.Select(l => Of(l, figures))];

    /// <summary>The limit is the last value that keeps to it.</summary>
    /// <param name="limit">Copied by the builder.</param>
    /// <param name="low">Lower end of the 95 % interval, in the limit's unit.</param>
    /// <param name="high">Upper end.</param>
    public static RuleVerdict Judge(RuleLimit limit, double low, double high) =>
        high <= limit.Value ? RuleVerdict.Inside : low > limit.Value ? RuleVerdict.Outside : RuleVerdict.TooClose;

    // A limit that nobody can look up is hearsay, and a verdict on it would lend it weight.
    private static JudgedRule Of(RuleLimit limit, IReadOnlyList<Figure> figures)
    {
        if (string.IsNullOrWhiteSpace(limit.Source) || limit.Date == default)
            return new(limit, null, "nobody has said where the limit stands and of which day it is");
        string name = FigureOf(limit.Kind).Figure;
        return Worst(limit, figures) is { } found
            ? new(limit, found, null)
            : new(limit, null, $"the run has no {name}: name it among the procedure's figures, or enter it");
    }

    // Where there are several, the one that could be farthest beyond.
    private static JudgedFigure? Worst(RuleLimit limit, IReadOnlyList<Figure> figures)
    {
        (string name, string unit, _, double factor) = FigureOf(limit.Kind);
        return figures.Where(f => f.Name == name && f.Unit == unit && f.Value is not null)
            .Select(f => Judged(limit, f, factor))
            .OrderByDescending(j => j.Verdict == RuleVerdict.Outside)
            .ThenBy(j => j.Verdict == RuleVerdict.Inside)
            .ThenByDescending(j => j.Interval?.High ?? j.Value)
            .FirstOrDefault();
    }

    private static JudgedFigure Judged(RuleLimit limit, Figure figure, double factor)
    {
        double value = figure.Value!.Value;
        (double Low, double High)? interval = figure.Interval95
            ?? (figure.StandardUncertainty is { } u ? (value - Coverage * u, value + Coverage * u) : null);
        // Nobody knows how far a figure without an interval reaches: beyond it counts, within it proves nothing.
        RuleVerdict verdict = interval is { } i ? Judge(limit, i.Low * factor, i.High * factor)
            : value * factor > limit.Value ? RuleVerdict.Outside : RuleVerdict.TooClose;
        return new(figure, value * factor, interval is { } known ? (known.Low * factor, known.High * factor) : null, verdict);
    }
}
