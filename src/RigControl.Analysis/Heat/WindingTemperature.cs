using RigControl.Analysis.Figures;
using RigControl.Analysis.Uncertainty;

namespace RigControl.Analysis.Heat;

/// <summary>
/// A winding as its own thermometer: its resistance cold and hot. Rise = (R2 − R1) / R1 · (k + t1) − (t2 − t1)
/// (IEC 60034-1, 8.6.2, from memory; k = 234.5 for copper).
/// </summary>
public static class WindingTemperature
{
    /// <summary>Temperature below 0 degC, taken positive, at which copper's line of resistance meets nothing, K.</summary>
    public const double Copper = 234.5;

    /// <summary>Temperature at which an article declares its winding's resistance, degC.</summary>
    public const double Declared = 20;

    /// <summary>Resistance at a temperature in degC over that at <see cref="Declared"/>.</summary>
    public static double Growth(double temperature) => (Copper + temperature) / (Copper + Declared);

    /// <summary>K above the surroundings at the end.</summary>
    /// <param name="cold">Ohm at <paramref name="coldAt"/>, degC.</param>
    /// <param name="hot">Ohm while hot.</param>
    /// <param name="ambient">degC when hot.</param>
    public static Measured Rise(Input cold, Input coldAt, Input hot, Input ambient) =>
        Propagation.Of(x => (x[2] - x[0]) / x[0] * (Copper + x[1]) - (x[3] - x[1]), [cold, coldAt, hot, ambient]);

    /// <summary>degC of the winding while hot.</summary>
    public static Measured Of(Input cold, Input coldAt, Input hot) => Propagation.Of(x => x[2] / x[0] * (Copper + x[1]) - Copper, [cold, coldAt, hot]);
}
