using System.Globalization;
using RigControl.Model.Records;

namespace RigControl.Analysis.Uncertainty;

/// <summary>A figure's budget as a builder reads it: what to measure better next.</summary>
public static class BudgetText
{
    // From here on improving anything else hardly helps.
    private const double Dominant = 0.5;

    // A smaller share moves the uncertainty by less than half a percent.
    private const double WorthNaming = 0.01;

    /// <summary>The part that dominates, or the two largest, with their shares of the variance; empty where there is no budget.</summary>
    public static string Mostly(Figure figure) => Mostly(figure.Budget);

    /// <summary>The same of several repeats of a figure, each part with the mean of its shares.</summary>
    public static string Mostly(IReadOnlyCollection<Figure> repeats) => Mostly([.. repeats
        .SelectMany(f => f.Budget)
        .GroupBy(c => c.Name)
        .Select(c => new Contribution(c.Key, c.Sum(p => p.Uncertainty) / repeats.Count, c.Sum(p => p.Share) / repeats.Count))
        .OrderByDescending(c => c.Share)]);

    private static string Mostly(IReadOnlyList<Contribution> budget) => budget.Where(c => !UnsizedPart.Is(c)).ToArray() switch
    {
        [] => "",
        [{ } only] => $"all of it from {only.Name}",
        [{ Share: > Dominant } first, ..] => $"most of it from {One(first)}",
        [{ } first, { } second, ..] => $"from {One(first)} and {One(second)}",
    };

    /// <summary>Every part that is worth naming, with its size and share, and those whose size nobody knows; empty where there is no budget.</summary>
    public static string Whole(Figure figure) => string.Join(", ", figure.Budget.Where(c => c.Share >= WorthNaming || UnsizedPart.Is(c)).Select(c =>
        UnsizedPart.Is(c) ? c.Name : $"{c.Name} {Rounding.Of(c.Uncertainty, c.Uncertainty).Value} {figure.Unit} ({Percent(c)} %)"));

    /// <summary>A sentence for everything whose size nobody knows, with the figures that it makes uncertain.</summary>
    /// <param name="name">What a figure is called.</param>
    public static IEnumerable<string> Unsized(IEnumerable<Figure> figures, Func<Figure, string> name) => figures
        .SelectMany(f => f.Budget.Where(UnsizedPart.Is).Select(line => (Line: line.Name, Figure: name(f))))
        .Distinct()
        .GroupBy(l => l.Line)
        .Select(l => $"{l.Key}, of unknown size in {string.Join(", ", l.Select(f => f.Figure))}");

    private static string One(Contribution part) => $"{part.Name} ({Percent(part)} %)";

    private static string Percent(Contribution part) => (100 * part.Share).ToString("0", CultureInfo.InvariantCulture);
}
