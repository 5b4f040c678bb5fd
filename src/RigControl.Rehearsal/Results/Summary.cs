using System.Globalization;
using RigControl.Analysis.Guarding;
using RigControl.Model.Records;
using RigControl.Rehearsal.Runaway;

namespace RigControl.Rehearsal.Results;

/// <summary>From all samples to what they have in common.</summary>
internal static class Summary
{
    // A run that one bench in twenty would not end is one to plan anew.
    private const double TooOften = 0.05;

    public static RehearsalResult Of(RehearsalPlan plan, VirtualResult[] results) => new(
        results.Length, results.Count(r => r.Completed) / (double)results.Length, Quantile([.. results.Select(r => r.Length.TotalSeconds)], 0.5),
        Figures(results), Margins(plan, results), Stops(results), Refusals(plan, results), [], Notes(plan));

    // What a fault could do, and how soon somebody could be at the rotor, are no part of the procedure, and are said beside it.
    private static IReadOnlyList<string> Notes(RehearsalPlan plan) =>
        [.. plan.NotModelled, .. new[] { Runaway(plan) is { IsRefused: false } within ? within.Sentence : null, GuardVerdict.Of(plan.Rig, plan.Article)?.Sentence }.OfType<string>()];

    private static EnclosureVerdict? Runaway(RehearsalPlan plan) => EnclosureVerdict.Of(plan.Rig, plan.Article, null);

    /// <summary>A share of the values lies below it; between two values it is in proportion.</summary>
    public static double Quantile(double[] values, double share)
    {
        Array.Sort(values);
        double place = share * (values.Length - 1);
        int below = (int)place;
        return below + 1 < values.Length ? values[below] + (place - below) * (values[below + 1] - values[below]) : values[below];
    }

    private static IReadOnlyList<PredictedFigure> Figures(VirtualResult[] results) => [.. results
        .SelectMany(r => r.Figures)
        .GroupBy(f => (f.Name, f.Repeat, Of: Subject(f)))
        .Select(g => Predicted(g.Key.Name, g.Key.Repeat, g.Key.Of, [.. g]))
        .Where(f => f.Median is not null || f.Note is not null)];

    // A figure of several channels says in its method which one it is of.
    private static string Subject(Figure figure)
    {
        int of = figure.Method.LastIndexOf(" of ", StringComparison.Ordinal);
        string last = of < 0 ? "" : figure.Method[(of + 4)..].Split(';')[0];
        return last.Contains('.', StringComparison.Ordinal) && !last.Contains(' ', StringComparison.Ordinal) ? last : "";
    }

    private static PredictedFigure Predicted(string name, int repeat, string of, Figure[] all)
    {
        double[] values = [.. all.Where(f => f.Value is not null).Select(f => f.Value!.Value)];
        string? without = values.Length < all.Length
            ? $"{all.Length - values.Length} of {all.Length} samples do not give it: {all.First(f => f.Value is null).Note}"
            : null;
        return values.Length == 0
            ? new PredictedFigure(name, "", repeat, null, null, of, without)
            : new PredictedFigure(name, all.First(f => f.Value is not null).Unit, repeat, Quantile(values, 0.5), (Quantile(values, 0.025), Quantile(values, 0.975)), of, without);
    }

    private static IReadOnlyList<PredictedMargin> Margins(RehearsalPlan plan, VirtualResult[] results) => [.. Enumerable
        .Range(0, plan.Configuration.InterlockCount)
        .Select(i => Margin(plan.Configuration.InterlockAt(i).Id, i, results))
        .OrderBy(m => m.Lowest)];

    private static PredictedMargin Margin(string id, int place, VirtualResult[] results)
    {
        double[] margins = [.. results.Select(r => r.Margins[place]).Where(double.IsFinite)];
        double trips = results.Count(r => r.Trip?.Interlock == id) / (double)results.Length;
        string? closest = results.OrderBy(r => r.Margins[place]).First().Tightest[place];
        return margins.Length == 0
            ? new PredictedMargin(id, 1, 1, trips, null)
            : new PredictedMargin(id, Quantile(margins, 0.5), margins.Min(), trips, closest);
    }

    private static IReadOnlyList<PredictedStop> Stops(VirtualResult[] results) => [.. results
        .Select(r => r.Trip)
        .OfType<VirtualTrip>()
        .GroupBy(t => (t.Interlock, t.Step))
        .Select(g => new PredictedStop(g.Key.Interlock, g.Key.Step + 1, g.Count() / (double)results.Length, g.First().Reason))
        .OrderByDescending(s => s.Share)];

    private static List<string> Refusals(RehearsalPlan plan, VirtualResult[] results)
    {
        List<string> refusals = Runaway(plan) is { IsRefused: true } beyond ? [beyond.Sentence] : [];
        double energy = Quantile([.. results.Select(r => r.Energy)], 0.975);
        if (plan.Article.Rotor is not null && plan.Rig.EnclosureRating is { } rating && energy > rating)
            refusals.Add(Text($"the rotor will store up to {energy:0} J, more than the {rating:0} J that {plan.Rig.Name}'s enclosure is rated for; lower the throttle"));
        double rpm = Quantile([.. results.Select(r => r.Fastest)], 0.975) * 60 / (2 * Math.PI);
        if (plan.Article.Rotor is { } rotor && rpm > rotor.MaximumSpeed)
            refusals.Add(Text($"the rotor will reach up to {rpm:0} rpm, more than the {rotor.MaximumSpeed:0} rpm that its builder allows; lower the throttle"));
        foreach (PredictedStop stop in Stops(results).Where(s => s.Share >= TooOften))
            refusals.Add(Text($"step {stop.Step}: {stop.Interlock} stops {stop.Share * 100:0} % of the samples ({stop.Example})"));
        double unended = results.Count(r => !r.Completed && r.Trip is null) / (double)results.Length;
        if (unended >= TooOften)
            refusals.Add(Text($"the procedure does not end within {Running.VirtualRun.Longest.TotalHours:0} h in {unended * 100:0} % of the samples"));
        return refusals;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
