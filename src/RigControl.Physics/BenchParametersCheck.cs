namespace RigControl.Physics;

/// <summary>Refuses parameters that no bench can have, before they turn into numbers that are none.</summary>
internal static class BenchParametersCheck
{
    /// <exception cref="ArgumentException">One sentence that names the value and what it must be.</exception>
    public static void Check(BenchParameters data)
    {
        CheckRotor(data);
        CheckMotor(data);
        CheckController(data.Controller);
        CheckPack(data);
        CheckHeat(data.MotorHeat, "motor's heat");
        CheckHeat(data.ControllerHeat, "controller's heat");
        CheckHeat(data.PackHeat, "pack's heat");
        CheckEnclosure(data.Enclosure);
        Above(data.Tachometer.PulsesPerRevolution, "tachometer's pulses per revolution");
        Above(data.Tachometer.TimerTick, "tachometer's timer tick in s");
        NotBelow(data.Tachometer.Jitter, "tachometer's jitter in s");
        Between(data.AmbientTemperature, -60, 150, "ambient temperature in degC");
    }

    private static void CheckRotor(BenchParameters data)
    {
        Above(data.Rotor.Inertia, "rotor's inertia in kg.m2");
        NotBelow(data.Rotor.TipRadius, "rotor's tip radius in m");
        NotBelow(data.Rotor.WindageShare, "rotor's windage share");
        NotBelow(data.Rotor.Drag.Constant, "rotor's constant drag in N.m");
        NotBelow(data.Rotor.Drag.Linear, "rotor's linear drag in N.m.s");
        NotBelow(data.Rotor.Drag.Quadratic, "rotor's quadratic drag in N.m.s2");
        NotBelow(data.Rotor.Drag.Breakaway, "rotor's breakaway torque in N.m");
        NotBelow(data.JamTorque, "jam torque in N.m");
        Above(data.Air.Density, "air's density in kg/m3");
        Above(data.Air.KinematicViscosity, "air's kinematic viscosity in m2/s");
    }

    private static void CheckMotor(BenchParameters data)
    {
        Above(data.Motor.SpeedConstant, "motor's Kv in rpm/V");
        Above(data.Motor.Resistance, "motor's resistance in ohm");
        NotBelow(data.Motor.NoLoadCurrent, "motor's no-load current in A");
    }

    private static void CheckController(SpeedController data)
    {
        Above(data.MinimumPulse, "controller's minimum pulse in us");
        Between(data.MaximumPulse, data.MinimumPulse, 3000, "controller's maximum pulse in us");
        Between(data.StopPulse, data.MinimumPulse, data.MaximumPulse, "controller's stop pulse in us");
        NotBelow(data.Deadband, "controller's deadband in us");
        NotBelow(data.Tolerance, "controller's tolerance in us");
        NotBelow(data.ArmingTime, "controller's arming time in s");
        Above(data.PulseTimeout, "controller's pulse timeout in s");
        Above(data.CurrentLimit, "controller's current limit in A");
        Above(data.DutyRise, "controller's duty rise per s");
        NotBelow(data.Resistance, "controller's resistance in ohm");
        NotBelow(data.IdleCurrent, "controller's idle current in A");
        NotBelow(data.MinimumSupply, "controller's minimum supply in V");
    }

    private static void CheckPack(BenchParameters data)
    {
        Above(data.Pack.Cells, "pack's number of cells");
        Above(data.Pack.Capacity, "pack's capacity in A.s");
        NotBelow(data.Pack.Resistance, "pack's resistance in ohm");
        Between(data.StateOfCharge, 0, 1, "pack's state of charge");
    }

    private static void CheckHeat(Heat data, string whose)
    {
        Above(data.InnerCapacity, $"{whose} inner capacity in J/K");
        Above(data.OuterCapacity, $"{whose} outer capacity in J/K");
        NotBelow(data.InnerToOuter, $"{whose} inner conductance in W/K");
        NotBelow(data.OuterToAmbient, $"{whose} outer conductance in W/K");
    }

    private static void CheckEnclosure(Enclosure data)
    {
        NotBelow(data.ContactorClosing, "contactor's closing time in s");
        NotBelow(data.ContactorOpening, "contactor's opening time in s");
        NotBelow(data.BoltReleasing, "bolt's releasing time in s");
        NotBelow(data.BoltReturning, "bolt's returning time in s");
    }

    private static void Above(double value, string what)
    {
        if (!(value > 0 && double.IsFinite(value)))
            throw new ArgumentException($"The {what} is {value}; write a number above 0.");
    }

    private static void NotBelow(double value, string what)
    {
        if (!(value >= 0 && double.IsFinite(value)))
            throw new ArgumentException($"The {what} is {value}; write a number of 0 or above.");
    }

    private static void Between(double value, double low, double high, string what)
    {
        if (!(value >= low && value <= high))
            throw new ArgumentException($"The {what} is {value}; write a number from {low} to {high}.");
    }
}
