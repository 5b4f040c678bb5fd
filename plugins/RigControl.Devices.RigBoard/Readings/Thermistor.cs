namespace RigControl.Devices.RigBoard.Readings;

/// <summary>
/// A thermistor between the input and ground, with a series resistor to the supply that is also the converter's reference, so
/// that the supply's value cancels. B equation: 1/T = 1/298.15 K + ln(R/R25)/B.
/// </summary>
/// <param name="resistance">At 25 degC, Ohm.</param>
/// <param name="beta">B value, K.</param>
/// <param name="series">Series resistor, Ohm.</param>
internal sealed class Thermistor(double resistance, double beta, double series)
{
    private const double Counts = 1024;
    private const double ZeroCelsius = 273.15;
    private const double Reference = 298.15;

    /// <summary>Temperature, degC, of a reading between 0 and 1024 counts; not a number at either end.</summary>
    public double Temperature(double counts)
    {
        if (!(counts is > 0 and < Counts))
            return double.NaN;
        double ohms = series * counts / (Counts - counts);
        return 1 / (1 / Reference + Math.Log(ohms / resistance) / beta) - ZeroCelsius;
    }
}
