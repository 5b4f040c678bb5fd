using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Records;

namespace RigControl.Analysis.Figures;

/// <summary>The figures that can be asked for, and how each is had.</summary>
public static class FigureCatalog
{
    /// <summary>Names of all figures that this version computes.</summary>
    public static IEnumerable<string> Names => FigureTable.Kinds.Keys.Order(StringComparer.Ordinal);

    /// <summary>What a figure needs; null for one that this version cannot compute.</summary>
    public static FigureNeeds? Needs(string name) => FigureTable.Kinds.GetValueOrDefault(name)?.Needs;

    /// <summary>Whether a figure is there once for every temperature channel; its method then ends with " of " and the channel.</summary>
    public static bool IsPerChannel(string name) => FigureTable.Kinds.GetValueOrDefault(name)?.OfTemperature is not null;

    /// <summary>The channel that a figure is of, where it is there once for every temperature; null for any other figure.</summary>
    public static string? ChannelOf(Figure figure) => IsPerChannel(figure.Name) ? figure.Method.Split(" of ")[^1].Split(';')[0] : null;

    /// <summary>Every channel whose readings go into a figure, whether or not they were recorded.</summary>
    public static IEnumerable<string> LooksAt(Figure figure) => Needs(figure.Name) is not { } needs ? []
        : ((string?[])[.. needs.Channels, ChannelOf(figure), .. needs.Besides]).OfType<string>().Distinct();

    /// <summary>The figures of a run: one per repeat, or one for the whole run; a reason instead of a number where there is none.</summary>
    public static IReadOnlyList<Figure> Compute(IReadOnlyList<string> names, FigureInput input)
    {
        FigureContext[] repeats = [.. input.Trace.Segments.Select(s => new FigureContext(input, s))];
        List<Figure> figures = [];
        foreach (string name in names)
        {
            if (!FigureTable.Kinds.TryGetValue(name, out FigureKind? kind))
                figures.Add(Without(name, "", 0, "", "this version cannot compute it"));
            else if (kind.OfRun is { } ofRun)
                figures.Add(Take(name, kind, 0, kind.Method, () => ofRun(input)));
            else if (kind.OfAnswers is { } ofAnswers)
                figures.AddRange(OfAnswers(name, kind, ofAnswers, input));
            else if (repeats.Length == 0)
                figures.Add(Without(name, "", 0, "", "the output never rose"));
            else
                figures.AddRange(repeats.SelectMany(r => OfRepeat(name, kind, r)));
        }

        return figures;
    }

    private static IEnumerable<Figure> OfRepeat(string name, FigureKind kind, FigureContext context)
    {
        int repeat = context.Segment.Repeat;
        if (kind.OfTemperature is not { } ofTemperature)
            return [Take(name, kind, repeat, kind.Method, () => kind.OfRepeat!(context))];
        string[] channels = [.. context.Trace.Channels.Where(c => c.Value.Unit == "degC" && c.Value.Count > 1).Select(c => c.Key)];
        return channels.Length == 0
            ? [Without(name, kind.Unit, repeat, kind.Method, "the record has no temperature")]
            : channels.Select(c => Take(name, kind, repeat, $"{kind.Method} of {c}", () => ofTemperature(context, c)));
    }

    private static Figure[] OfAnswers(string name, FigureKind kind, Func<FigureInput, IEnumerable<(string Of, Measured Figure)>> compute, FigureInput input)
    {
        try
        {
            return [.. compute(input).Select(f => Take(name, kind, 0, $"{kind.Method} of {f.Of}", () => f.Figure))];
        }
        catch (NoFigureException e)
        {
            return [Without(name, kind.Unit, 0, kind.Method, e.Message)];
        }
    }

    internal static Figure Take(string name, FigureKind kind, int repeat, string method, Func<Measured> compute)
    {
        try
        {
            Measured m = compute();
            return double.IsFinite(m.Value) && double.IsFinite(m.Uncertainty)
                ? new Figure(name, m.Value, kind.Unit, m.Uncertainty, m.Interval95, repeat, method, m.Note) { Budget = m.Budget }
                : Without(name, kind.Unit, repeat, method, "the data lead to no number");
        }
        catch (Exception e) when (e is NoFigureException or Fitting.FitFailedException)
        {
            return Without(name, kind.Unit, repeat, method, e.Message);
        }
    }

    private static Figure Without(string name, string unit, int repeat, string method, string reason) => new(name, null, unit, null, null, repeat, method, reason);
}
