using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;

namespace RigControl.Analysis.Figures;

/// <summary>A value with its standard uncertainty, both in the same unit, and what the uncertainty is made of.</summary>
public sealed record Measured(double Value, double Uncertainty)
{
    // Of the variance: beyond it a figure is itself as good as rectangular where it goes into another one.
    private const double MostlyFlat = 0.9;

    /// <summary>Effective degrees of freedom of the uncertainty.</summary>
    public double Freedom { get; init; } = double.PositiveInfinity;

    /// <summary>Share of the variance, 0 to 1, that a single input with hard ends has: such an interval need not reach as far.</summary>
    public double Flat { get; init; }

    /// <summary>The 95 % interval where it is not symmetric; null takes Student's t around the value.</summary>
    public (double Low, double High)? Asymmetric { get; init; }

    /// <summary>What each input adds, the largest first; empty where there is only one.</summary>
    public IReadOnlyList<Contribution> Budget { get; init; } = [];

    /// <summary>What to mind about the number; null for nothing.</summary>
    public string? Note { get; init; }

    /// <summary>The 95 % interval.</summary>
    public (double Low, double High) Interval95
    {
        get
        {
            double half = (Coverage.Factor95(Freedom) - Coverage.LessForFlat(Flat)) * Uncertainty;
            return Asymmetric ?? (Value - half, Value + half);
        }
    }

    /// <summary>The same with an own standard uncertainty of each independent part.</summary>
    public static Measured Of(double value, params IReadOnlyList<Input> parts)
    {
        double variance = parts.Sum(p => p.Uncertainty * p.Uncertainty);
        return new Measured(value, Math.Sqrt(variance))
        {
            Freedom = Coverage.EffectiveFreedom(parts.Select(p => (p.Uncertainty, p.Freedom))),
            Budget = Shares(parts.Select(p => (p.Name, p.Uncertainty)), variance),
            Flat = variance > 0 ? parts.Where(p => p.Shape == Shape.Rectangular).Select(p => p.Uncertainty * p.Uncertainty / variance).DefaultIfEmpty(0).Max() : 0,
        };
    }

    /// <summary>A figure as it was kept; its degrees of freedom are those that its interval tells of. One without an uncertainty counts as exact.</summary>
    /// <exception cref="ArgumentException">It has no value.</exception>
    public static Measured Kept(Figure figure)
    {
        double value = figure.Value ?? throw new ArgumentException($"there is no {figure.Name}", nameof(figure));
        double uncertainty = figure.StandardUncertainty ?? 0;
        return new Measured(value, uncertainty)
        {
            Budget = figure.Budget,
            Freedom = figure.Interval95 is { } i && uncertainty > 0 ? Coverage.Freedom95((i.High - i.Low) / 2 / uncertainty) : double.PositiveInfinity,
        };
    }

    /// <summary>The same in another unit, or of something proportional to it.</summary>
    public Measured Times(double factor) => this with
    {
        Value = Value * factor,
        Uncertainty = Uncertainty * Math.Abs(factor),
        Asymmetric = Asymmetric is not { } i ? null : factor > 0 ? (i.Low * factor, i.High * factor) : (i.High * factor, i.Low * factor),
        Budget = [.. Budget.Select(b => b with { Uncertainty = b.Uncertainty * Math.Abs(factor) })],
    };

    /// <summary>
    /// The same of something proportional to it by a factor that is itself known only so well. A factor without uncertainty is the plain
    /// number.
    /// </summary>
    public Measured Times(Input factor)
    {
        Measured plain = Times(factor.Value);
        double own = Math.Abs(Value * factor.Uncertainty);
        if (own == 0)
            return plain;
        double variance = plain.Uncertainty * plain.Uncertainty + own * own;
        IReadOnlyList<Contribution> before = plain.Budget.Count > 0 ? plain.Budget : [new Contribution("readings", plain.Uncertainty, 1)];
        double Aside(double half) => Combine(half, Coverage.Factor95(factor.Freedom) * own);
        return plain with
        {
            Uncertainty = Math.Sqrt(variance),
            Freedom = Coverage.EffectiveFreedom([(plain.Uncertainty, plain.Freedom), (own, factor.Freedom)]),
            Flat = plain.Flat * plain.Uncertainty * plain.Uncertainty / variance,
            Asymmetric = plain.Asymmetric is { } i ? (plain.Value - Aside(plain.Value - i.Low), plain.Value + Aside(i.High - plain.Value)) : null,
            Budget = Shares([.. before.Select(b => (b.Name, b.Uncertainty)), (factor.Name, own)], variance),
        };
    }

    /// <summary>As an input of another figure.</summary>
    public Input As(string name) => new(name, Value, Uncertainty, Freedom, Flat > MostlyFlat ? Shape.Rectangular : Shape.Normal);

    /// <summary>Standard uncertainty of a reading known only to a step: the step over the root of 12 (JCGM 100:2008, F.2.2.1; from memory).</summary>
    public static double OfResolution(double step) => step / Math.Sqrt(12);

    /// <summary>Root of the sum of squares of independent parts.</summary>
    public static double Combine(params ReadOnlySpan<double> parts)
    {
        double sum = 0;
        foreach (double part in parts)
            sum += part * part;
        return Math.Sqrt(sum);
    }

    internal static IReadOnlyList<Contribution> Shares(IEnumerable<(string Name, double Uncertainty)> parts, double variance) =>
        [.. parts.Select(p => new Contribution(p.Name, Math.Abs(p.Uncertainty), variance > 0 ? p.Uncertainty * p.Uncertainty / variance : 0))
            .Where(c => c.Uncertainty > 0).OrderByDescending(c => c.Uncertainty)];
}
