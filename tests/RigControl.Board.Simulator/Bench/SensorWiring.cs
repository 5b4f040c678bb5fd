namespace RigControl.Board.Simulator.Bench;

/// <summary>
/// What stands between the bench's quantities and the board's analogue inputs. A rig file for this board states the same scales.
/// Values are common practice, chosen for the disc-180 bench.
/// </summary>
public static class SensorWiring
{
    /// <summary>Supply and reference, mV.</summary>
    public const double Reference = 5000;

    /// <summary>Pack voltage is divided by this, so that 30 V give full scale.</summary>
    public const double VoltageDivider = 6;

    /// <summary>Current sensor: mV per A around mid-scale, ±62.5 A.</summary>
    public const double MillivoltsPerAmpere = 40;

    /// <summary>Thermistor: ohm at 25 °C, with the same resistance in series from the supply.</summary>
    public const double ThermistorResistance = 10_000;

    /// <summary>Thermistor: B value, K.</summary>
    public const double ThermistorB = 3950;

    private const double KelvinAtZero = 273.15;
    private const double KelvinAtReference = 298.15;

    /// <summary>mV for a pack voltage in V.</summary>
    public static double Voltage(double volts) => volts * 1000 / VoltageDivider;

    /// <summary>mV for a pack current in A.</summary>
    public static double Current(double amperes) => Reference / 2 + amperes * MillivoltsPerAmpere;

    /// <summary>mV for a temperature in °C.</summary>
    public static double Thermistor(double celsius)
    {
        double ratio = Math.Exp(ThermistorB * (1 / (celsius + KelvinAtZero) - 1 / KelvinAtReference));
        return Reference * ratio / (1 + ratio);
    }
}
