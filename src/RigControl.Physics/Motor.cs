namespace RigControl.Physics;

/// <summary>
/// A brushless motor with its controller seen as a direct-current motor: V = I R + Ke w, torque = Kt (I − I0), Kt = Ke.
/// First-order model: M. Drela, First-Order DC Electric Motor Model, MIT 2007.
/// </summary>
/// <param name="SpeedConstant">Kv, rpm/V, above 0.</param>
/// <param name="Resistance">Winding at 20 degC, terminal to terminal, ohm, above 0.</param>
/// <param name="NoLoadCurrent">I0, A.</param>
public sealed record Motor(double SpeedConstant, double Resistance, double NoLoadCurrent)
{
    /// <summary>Change of copper's resistance per kelvin, as a share of that at 20 degC (IEC 60228: 0.00393).</summary>
    public const double CopperCoefficient = 0.00393;

    /// <summary>Kt, N.m/A, and Ke, V.s/rad: in SI units they are the same number, 60 / (2 π Kv).</summary>
    public double TorqueConstant => 60 / (2 * Math.PI * SpeedConstant);

    /// <summary>Winding resistance, ohm, at a temperature in degC.</summary>
    public double ResistanceAt(double temperature) => Resistance * (1 + CopperCoefficient * (temperature - 20));

    /// <summary>Torque on the shaft while turning, N.m, at a current in A.</summary>
    public double Torque(double current) => TorqueConstant * (current - NoLoadCurrent);

    /// <summary>Current, A, at a voltage in V and a speed in rad/s.</summary>
    public double Current(double voltage, double speed) => (voltage - BackEmf(speed)) / Resistance;

    /// <summary>V at a speed in rad/s.</summary>
    public double BackEmf(double speed) => TorqueConstant * speed;

    /// <summary>A with the shaft held.</summary>
    public double StallCurrent(double voltage) => voltage / Resistance;

    /// <summary>N.m with the shaft held.</summary>
    public double StallTorque(double voltage) => Torque(StallCurrent(voltage));

    /// <summary>rad/s with nothing on the shaft.</summary>
    public double NoLoadSpeed(double voltage) => (voltage - NoLoadCurrent * Resistance) / TorqueConstant;

    /// <summary>Greatest mechanical power, W, reached at half the no-load speed.</summary>
    public double PeakPower(double voltage) => Square(voltage - NoLoadCurrent * Resistance) / (4 * Resistance);

    /// <summary>Current of best efficiency, A.</summary>
    public double CurrentAtBestEfficiency(double voltage) => Math.Sqrt(voltage * NoLoadCurrent / Resistance);

    /// <summary>Best efficiency, a share of 1.</summary>
    public double BestEfficiency(double voltage) => Square(1 - Math.Sqrt(NoLoadCurrent * Resistance / voltage));

    /// <summary>Efficiency, a share of 1, at a voltage in V and a current in A above 0.</summary>
    public double Efficiency(double voltage, double current)
        => (1 - NoLoadCurrent / current) * (1 - current * Resistance / voltage);

    private static double Square(double x) => x * x;
}
