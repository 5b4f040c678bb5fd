using System.Globalization;
using UnitsNet;
using UnitsNet.Units;
using Kind = RigControl.Documents.Values.UnitKind;

namespace RigControl.Documents.Values;

/// <summary>
/// Every unit that a file may use. Factors come from UnitsNet; the few it lacks are written here. A unit stands in one line:
/// the first of its kind is the canonical one, in which channels of that kind are declared.
/// </summary>
public static class Units
{
    private static readonly Unit[] Table =
    [
        new("rpm", Kind.RotationalSpeed, RotationalSpeedUnit.RevolutionPerMinute),
        new("rad/s", Kind.RotationalSpeed, RotationalSpeedUnit.RadianPerSecond),
        new("deg/s", Kind.RotationalSpeed, RotationalSpeedUnit.DegreePerSecond),
        new("Hz", Kind.RotationalSpeed, RotationalSpeedUnit.RevolutionPerSecond),
        new("V", Kind.Voltage, ElectricPotentialUnit.Volt),
        new("mV", Kind.Voltage, ElectricPotentialUnit.Millivolt),
        new("A", Kind.Current, ElectricCurrentUnit.Ampere),
        new("mA", Kind.Current, ElectricCurrentUnit.Milliampere),
        new("W", Kind.Power, PowerUnit.Watt),
        new("Ohm", Kind.Resistance, ElectricResistanceUnit.Ohm),
        new("mOhm", Kind.Resistance, ElectricResistanceUnit.Milliohm),
        new("Ah", Kind.Charge, ElectricChargeUnit.AmpereHour),
        new("mAh", Kind.Charge, ElectricChargeUnit.MilliampereHour),
        new("J", Kind.Energy, EnergyUnit.Joule),
        new("Wh", Kind.Energy, EnergyUnit.WattHour),
        new("degC", Kind.Temperature, TemperatureUnit.DegreeCelsius),
        new("degF", Kind.Temperature, TemperatureUnit.DegreeFahrenheit),
        new("K", Kind.Temperature, TemperatureUnit.Kelvin),
        new("K/W", Kind.ThermalResistance, null),
        new("N", Kind.Force, ForceUnit.Newton),
        new("kgf", Kind.Force, ForceUnit.KilogramForce),
        new("lbf", Kind.Force, ForceUnit.PoundForce),
        new("N.m", Kind.Torque, TorqueUnit.NewtonMeter),
        new("mN.m", Kind.Torque, TorqueUnit.NewtonMeter, 1e-3),
        new("ozf.in", Kind.Torque, TorqueUnit.PoundForceInch, 1.0 / 16),
        new("lbf.in", Kind.Torque, TorqueUnit.PoundForceInch),
        new("N.m.s", Kind.LinearDrag, null),
        new("N.m.s2", Kind.QuadraticDrag, null),
        new("g", Kind.Mass, MassUnit.Gram),
        new("kg", Kind.Mass, MassUnit.Kilogram),
        new("lb", Kind.Mass, MassUnit.Pound),
        new("oz", Kind.Mass, MassUnit.Ounce),
        new("m", Kind.Length, LengthUnit.Meter),
        new("mm", Kind.Length, LengthUnit.Millimeter),
        new("in", Kind.Length, LengthUnit.Inch),
        new("ft", Kind.Length, LengthUnit.Foot),
        new("m/s", Kind.Speed, SpeedUnit.MeterPerSecond),
        new("km/h", Kind.Speed, SpeedUnit.KilometerPerHour),
        new("mph", Kind.Speed, SpeedUnit.MilePerHour),
        new("ft/s", Kind.Speed, SpeedUnit.FootPerSecond),
        new("m/s2", Kind.Acceleration, AccelerationUnit.MeterPerSecondSquared),
        new("deg", Kind.Angle, AngleUnit.Degree),
        new("us", Kind.Time, DurationUnit.Microsecond),
        new("ms", Kind.Time, DurationUnit.Millisecond),
        new("s", Kind.Time, DurationUnit.Second),
        new("%", Kind.Share, null),
        new("kg.m2", Kind.Inertia, MassMomentOfInertiaUnit.KilogramSquareMeter),
        new("g.mm2", Kind.Inertia, MassMomentOfInertiaUnit.GramSquareMillimeter),
        new("rpm/V", Kind.SpeedConstant, null),
        new("1", Kind.Number, null),
    ];

    private static readonly Dictionary<string, Unit> BySymbol = Table.ToDictionary(u => u.Symbol);

    private static readonly Dictionary<string, Enum> Degrees = new()
    {
        ["degC"] = TemperatureDeltaUnit.DegreeCelsius,
        ["degF"] = TemperatureDeltaUnit.DegreeFahrenheit,
        ["K"] = TemperatureDeltaUnit.Kelvin,
    };

    /// <summary>The symbol of every unit, those of a kind together, the canonical one of each kind first.</summary>
    public static IReadOnlyList<string> Symbols { get; } = [.. Table.Select(u => u.Symbol)];

    /// <summary>The unit in which channels of that kind are declared; null for an unknown unit.</summary>
    public static string? Canonical(string unit) =>
        BySymbol.TryGetValue(unit, out Unit? known) ? Table.First(u => u.Kind == known.Kind).Symbol : null;

    /// <summary>
    /// The units that may be written where <paramref name="unit"/> is due. K means a temperature difference there and Hz a rate,
    /// so both stand alone: nobody should get 275 K for a margin of 2 degC. A unit of a plugin's own stands alone, too.
    /// </summary>
    public static IReadOnlyList<string> Accepted(string unit) =>
        unit is "K" or "Hz" || !BySymbol.TryGetValue(unit, out Unit? known)
            ? [unit]
            : [.. Table.Where(u => u.Kind == known.Kind).Select(u => u.Symbol)];

    /// <summary>Converts a value, such as 80 degF into degC. Both units are known and of one kind.</summary>
    public static double Convert(double value, string from, string to)
    {
        if (from == to)
            return value;
        Unit source = BySymbol[from], target = BySymbol[to];
        return Tidy(source.Standard is null || target.Standard is null
            ? value * source.Multiple / target.Multiple
            : UnitConverter.Convert(value * source.Multiple, source.Standard, target.Standard) / target.Multiple);
    }

    /// <summary>Converts a difference of two values, such as a band of 9 degF into 5 degC.</summary>
    public static double ConvertDifference(double value, string from, string to) =>
        from != to && Degrees.TryGetValue(from, out Enum? source) && Degrees.TryGetValue(to, out Enum? target)
            ? Tidy(UnitConverter.Convert(value, source, target))
            : Convert(value, from, to);

    // Thirteen digits are more than anybody measures, and 1 ms must be the same as 1000 us where two pulses are compared.
    private static double Tidy(double value) =>
        double.Parse(value.ToString("G13", CultureInfo.InvariantCulture), NumberStyles.Float, CultureInfo.InvariantCulture);
}
