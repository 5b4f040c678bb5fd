using RigControl.Analysis.Figures;
using RigControl.Analysis.Speed;
using RigControl.Analysis.Traces;
using RigControl.Analysis.Uncertainty;
using RigControl.Model.Signals;

namespace RigControl.Analysis.Power;

/// <summary>Electrical power of the pack while a level of the throttle was held.</summary>
/// <param name="Throttle">%.</param>
/// <param name="Power">W, the mean of the second half of each hold.</param>
/// <param name="Samples">W, those that the mean is of.</param>
public sealed record LevelPower(double Throttle, Measured Power, IReadOnlyList<double> Samples)
{
    // A throttle within this much, %, stands.
    private const double Standing = 0.1;

    // A level held shorter is a step of a ramp; the rotor is still on its way.
    private const double Shortest = 0.5;
    private const int Fewest = 20;

    /// <summary>Of one repeat, in order of the throttle; what was held several times is one level.</summary>
    /// <exception cref="NoFigureException">No level was held for long enough.</exception>
    public static IReadOnlyList<LevelPower> Of(FigureContext context)
    {
        Series power = context.Power.Between(context.NeedRise(), context.OutputEnd);
        double[] throttle = PackSeries.At(context.Need(ChannelNames.OutputThrottle), power.Times);
        List<LevelPower> holds = [];
        for (int from = 0, end; from < power.Count; from = end)
        {
            end = from + 1;
            while (end < power.Count && Math.Abs(throttle[end] - throttle[from]) <= Standing)
                end++;
            int half = from + (end - from) / 2;
            if (throttle[from] > Standing && end - half >= Fewest && power.Times[end - 1] - power.Times[from] >= Shortest)
                holds.Add(Hold(power, throttle[half], half, end));
        }

        if (holds.Count == 0)
            throw new NoFigureException("no level of the throttle was held for long enough");
        return [.. holds.GroupBy(h => Math.Round(h.Throttle / Standing)).OrderBy(g => g.Key).Select(g => Together([.. g]))];
    }

    private static LevelPower Hold(Series power, double throttle, int from, int end) =>
        new(throttle, Settled.Of(power.Times[from..end], power.Values[from..end], power.Resolution).Level, power.Values[from..end]);

    // Holds of the same level differ by more than their scatter: by warmth and charge.
    private static LevelPower Together(LevelPower[] holds)
    {
        if (holds.Length == 1)
            return holds[0];
        double count = holds.Length, mean = holds.Average(h => h.Power.Value);
        double each = Measured.Combine([.. holds.Select(h => h.Power.Uncertainty / count)]);
        double between = Math.Sqrt(holds.Sum(h => (h.Power.Value - mean) * (h.Power.Value - mean)) / (count - 1) / count);
        Measured power = Measured.Of(mean, new Input("scatter of the readings", 0, each), new Input("holds of the same level", 0, between, count - 1));
        return new LevelPower(holds[0].Throttle, power, [.. holds.SelectMany(h => h.Samples)]);
    }
}
