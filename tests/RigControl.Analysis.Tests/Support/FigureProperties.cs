using RigControl.Analysis.Figures;
using RigControl.Analysis.Traces;
using RigControl.Model.Records;

namespace RigControl.Analysis.Tests.Support;

/// <summary>Figures of a record beside those of the same record changed.</summary>
/// <param name="plain">As it was recorded.</param>
/// <param name="names">Of all figures that are looked at.</param>
/// <param name="compute">All of them from a record.</param>
internal sealed class FigureProperties(Dictionary<string, Series> plain, string[] names, Func<Dictionary<string, Series>, IEnumerable<Figure>> compute)
{
    // By how much less a width may be told without being less: a scatter is itself known from so many readings only.
    private const double AsWide = 0.97;

    /// <summary>Of the record as it is, by name.</summary>
    public IReadOnlyDictionary<string, Figure> Plain { get; } = compute(plain).ToDictionary(f => f.Name);

    public IReadOnlyDictionary<string, Figure> Of(Dictionary<string, Series> changed) => compute(changed).ToDictionary(f => f.Name);

    public Dictionary<string, Series> Changed(Func<Series, Series> change) => plain.ToDictionary(c => c.Key, c => change(c.Value));

    public Dictionary<string, Series> Later(double seconds) => Changed(s => s with { Times = [.. s.Times.Select(t => t + seconds)] });

    /// <summary>Only every n-th sample.</summary>
    public Dictionary<string, Series> Every(int each)
    {
        double[] Kept(double[] all) => [.. all.Where((_, i) => i % each == 0)];
        return Changed(s => s with { Times = Kept(s.Times), Values = Kept(s.Values) });
    }

    public void AreAllThere() => Assert.All(names, n => Assert.True(Plain[n] is { Value: not null, StandardUncertainty: > 0 }, Plain[n].Note ?? n));

    /// <summary>All of them, within a number of the uncertainties of both.</summary>
    public void Same(Dictionary<string, Series> changed, double within) => Same(names, changed, 1, within);

    /// <summary>Some of them, a factor apart.</summary>
    public void Same(string[] some, Dictionary<string, Series> changed, double factor, double within)
    {
        IReadOnlyDictionary<string, Figure> all = Of(changed);
        Assert.All(some, n =>
        {
            (Figure before, Figure after) = (Plain[n], all[n]);
            double allowed = within * Measured.Combine(factor * before.StandardUncertainty!.Value, after.StandardUncertainty!.Value);
            Near.Absolute(factor * before.Value!.Value, after.Value!.Value, allowed + 1e-9 * Math.Abs(after.Value.Value), n);
        });
    }

    /// <summary>No interval of the noisier record is narrower.</summary>
    public void NeverNarrower(Dictionary<string, Series> noisier)
    {
        IReadOnlyDictionary<string, Figure> all = Of(noisier);
        Assert.All(names, n => Assert.True(IsAsWide(Width(all[n]), Width(Plain[n])), $"{n}: {Width(all[n])} is less than {Width(Plain[n])}"));
    }

    /// <summary>Whether a width counts as no less than another.</summary>
    public static bool IsAsWide(double width, double other) => width >= AsWide * other;

    /// <summary>Of the 95 % interval; infinity without one.</summary>
    public static double Width(Figure figure) => figure.Interval95 is { } i ? i.High - i.Low : double.PositiveInfinity;
}
