using RigControl.Analysis.Figures;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Speed;

/// <summary>The highest of values that may scatter: the highest one where it does not, else the level behind them.</summary>
internal static class Highest
{
    private const int Fewest = 30;

    // Of a step: what a step alone hides looks like less than this.
    private const double Scatters = 0.45;

    public static Measured Of(double[] times, double[] values, double noise, double resolution)
    {
        Input step = new("resolution", 0, Measured.OfResolution(resolution));
        if (noise > Scatters * resolution && values.Length >= Fewest && Crest.Of(times, values, noise) is { } level)
            return Measured.Of(level.Value, new Input("scatter of the readings", 0, level.Uncertainty), step with { Uncertainty = Math.Min(step.Uncertainty, level.Uncertainty) });
        return Measured.Of(values.Max(), step, new Input("scatter of the readings", 0, noise));
    }
}
