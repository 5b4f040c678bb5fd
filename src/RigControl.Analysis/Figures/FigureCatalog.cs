using RigControl.Analysis.Traces;
using RigControl.Model.Records;

namespace RigControl.Analysis.Figures;

/// <summary>The figures that can be asked for, and how each is had.</summary>
public static class FigureCatalog
{
    private static readonly Dictionary<string, PerRepeat> Repeated = new()
    {
        ["spin-up-time"] = new("s", SpeedFigures.SpinUpTime, "first demand to 90 % of the steady speed"),
        ["steady-speed"] = new("rpm", SpeedFigures.Steady, "mean of the second half of the hold"),
        ["peak-speed"] = new("rpm", SpeedFigures.Peak, "highest sample"),
        ["tip-speed"] = new("m/s", SpeedFigures.TipSpeed, "peak speed times declared tip radius"),
        ["stored-energy"] = new("J", SpeedFigures.StoredEnergy, "declared inertia at peak speed"),
        ["coast-down-time"] = new("s", SpeedFigures.CoastDownTime, "stop output to rest speed"),
        ["peak-current"] = new("A", PowerFigures.PeakCurrent, "highest sample"),
        ["mean-current"] = new("A", PowerFigures.MeanCurrent, "mean over the time with output on"),
        ["minimum-voltage"] = new("V", PowerFigures.MinimumVoltage, "lowest sample"),
        ["peak-power"] = new("W", PowerFigures.PeakPower, "highest product of voltage and current"),
    };

    private static readonly Dictionary<string, PerRun> Whole = new()
    {
        ["charge-used"] = new("Ah", PowerFigures.ChargeUsed, "trapezoidal rule over the whole run"),
        ["energy-used"] = new("Wh", PowerFigures.EnergyUsed, "trapezoidal rule over the whole run"),
    };

    private const string TemperatureRise = "temperature-rise";

    /// <summary>Names of all figures that this version computes.</summary>
    public static IEnumerable<string> Names => Repeated.Keys.Concat(Whole.Keys).Append(TemperatureRise).Order(StringComparer.Ordinal);

    /// <summary>The figures of a run: one per repeat, or one for the whole run; a reason instead of a number where there is none.</summary>
    public static IReadOnlyList<Figure> Compute(IReadOnlyList<string> names, FigureInput input)
    {
        List<Figure> figures = [];
        foreach (string name in names)
        {
            if (Whole.TryGetValue(name, out PerRun? run))
                figures.Add(Take(name, run.Unit, 0, run.Method, () => run.Compute(input.Trace)));
            else if (Repeated.TryGetValue(name, out PerRepeat? repeat))
                figures.AddRange(Each(input, name, c => Take(name, repeat.Unit, c.Segment.Repeat, repeat.Method, () => repeat.Compute(c))));
            else if (name == TemperatureRise)
                figures.AddRange(Each(input, name, c => Rises(c, input.Trace)));
            else
                figures.Add(new Figure(name, null, "", null, null, 0, "", "this version cannot compute it"));
        }

        return figures;
    }

    private static IEnumerable<Figure> Each(FigureInput input, string name, Func<FigureContext, Figure> figure) =>
        Each(input, name, c => (IEnumerable<Figure>)[figure(c)]);

    private static IEnumerable<Figure> Each(FigureInput input, string name, Func<FigureContext, IEnumerable<Figure>> figures)
    {
        if (input.Trace.Segments.Count == 0)
            return [new Figure(name, null, "", null, null, 0, "", "the output never rose")];
        return input.Trace.Segments.SelectMany(s => figures(new FigureContext(input.Trace, s, input.Article, input.RestSpeed)));
    }

    private static IEnumerable<Figure> Rises(FigureContext context, Trace trace) => trace.Channels
        .Where(c => c.Value.Unit == "degC" && c.Value.Count > 1)
        .Select(c => Take(TemperatureRise, "K", context.Segment.Repeat, $"highest minus first of {c.Key}", () => HeatFigures.Rise(context, c.Key)));

    private static Figure Take(string name, string unit, int repeat, string method, Func<Measured> compute)
    {
        try
        {
            Measured m = compute();
            return new Figure(name, m.Value, unit, m.Uncertainty, m.Interval95, repeat, method, m.Note);
        }
        catch (Exception e) when (e is NoFigureException or Fitting.FitFailedException)
        {
            return new Figure(name, null, unit, null, null, repeat, method, e.Message);
        }
    }

    private sealed record PerRepeat(string Unit, Func<FigureContext, Measured> Compute, string Method);

    private sealed record PerRun(string Unit, Func<Trace, Measured> Compute, string Method);
}

/// <summary>What figures are computed from.</summary>
/// <param name="RestSpeed">Speed at which a coast-down counts as done, rpm.</param>
public sealed record FigureInput(Trace Trace, Model.Rig.Article Article, double RestSpeed);
