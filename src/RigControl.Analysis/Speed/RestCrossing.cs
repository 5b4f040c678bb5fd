using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Speed;

/// <summary>When a rotor running down passed a low speed: from the end of its trajectory, since single readings are rare there.</summary>
internal static class RestCrossing
{
    // The end of the trajectory reaches from the level to this many times as fast, and further back where that holds few readings:
    // a rotor that stops within three turns shows three marks.
    private const double Reach = 8;
    private const int Wanted = 120;
    private const int Fewest = 12;

    // Marks that hang together say when they came to about a sample's period over their number.
    private const int Chained = 20;

    /// <summary>s, on the trace's own clock; null where the speed never fell so far.</summary>
    /// <param name="period">Between samples of the trace, s.</param>
    /// <param name="lowest">Lowest speed that the trace shows, rpm: after its last mark a rotor is only known to be slower.</param>
    public static Measured? Of(SpeedSignal signal, double level, double from, double lowest, double period)
    {
        if (signal.Count < 2 || lowest > level)
            return null;
        int first = Array.FindIndex(signal.Values, v => v <= Reach * level);
        first = Math.Max(0, Math.Min(first < 0 ? signal.Count : first, signal.Count - Wanted));
        SpeedSignal end = signal with { Times = signal.Times[first..], Values = signal.Values[first..] };
        return end.Count >= Fewest && Fitted(end, level, period) is { } fitted ? fitted : LocalFit.Crossing(signal, level, from, rising: false, 0.5);
    }

    private static Measured? Fitted(SpeedSignal end, double level, double period)
    {
        try
        {
            CoastDownFit fit = CoastDownFit.OfEnd(end);
            Measured time = fit.OfFit(c => c.TimeTo(level * Blocks.RpmToRadPerSecond), "speed around rest");
            // Readings that differ by more than their step scatter by it, and the fit has seen that.
            double usual = Summary.Median([.. end.Values.Zip(end.Values.Skip(1), (a, b) => Math.Abs(a - b))]);
            double hidden = usual > end.Resolution ? 0 : Measured.OfResolution(end.Resolution) * Blocks.RpmToRadPerSecond / fit.Trajectory.Slowing(level * Blocks.RpmToRadPerSecond);
            return double.IsFinite(time.Value) && double.IsFinite(time.Uncertainty)
                ? Measured.Of(fit.Origin + time.Value, new Input("speed around rest", 0, time.Uncertainty, time.Freedom), new Input("resolution", 0, hidden), new Input("moments of the marks", 0, period / Chained))
                : null;
        }
        catch (Exception e) when (e is FitFailedException or NoFigureException)
        {
            return null;
        }
    }
}
