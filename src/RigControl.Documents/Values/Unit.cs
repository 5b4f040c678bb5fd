namespace RigControl.Documents.Values;

/// <summary>A unit as files write it.</summary>
/// <param name="Symbol">Case matters.</param>
/// <param name="Kind">Units of one kind convert into each other.</param>
/// <param name="Standard">The unit of UnitsNet that it is a multiple of; null where UnitsNet has none.</param>
/// <param name="Multiple">How many of <paramref name="Standard"/>, or of the kind's canonical unit, one of it is.</param>
internal sealed record Unit(string Symbol, UnitKind Kind, Enum? Standard, double Multiple = 1);

/// <summary>What a unit measures.</summary>
internal enum UnitKind : byte
{
    RotationalSpeed,
    Voltage,
    Current,
    Power,
    Resistance,
    Charge,
    Energy,
    Temperature,
    ThermalResistance,
    Force,
    Torque,
    LinearDrag,
    QuadraticDrag,
    Mass,
    Length,
    Speed,
    Acceleration,
    Angle,
    Time,
    Share,
    Inertia,
    SpeedConstant,
    Number,
}
