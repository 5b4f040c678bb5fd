namespace RigControl.Analysis.Uncertainty;

/// <summary>How an input may lie around its value.</summary>
public enum Shape : byte
{
    /// <summary>Bell-shaped; Student's t where the degrees of freedom are few.</summary>
    Normal,

    /// <summary>Anywhere between two limits, such as a value known to a step.</summary>
    Rectangular,

    /// <summary>Difference of two rectangular ones, such as a time between two frames.</summary>
    Triangular,

    /// <summary>What swings to and fro between two limits, such as a cycling room temperature.</summary>
    Arcsine,
}

/// <summary>An input of a measurement: what it is called, its value, how well it is known, and how it may lie.</summary>
/// <param name="Uncertainty">Standard uncertainty, in the unit of <paramref name="Value"/>.</param>
/// <param name="Freedom">Degrees of freedom of the uncertainty; infinity where it is not itself an estimate.</param>
public sealed record Input(string Name, double Value, double Uncertainty, double Freedom = double.PositiveInfinity, Shape Shape = Shape.Normal);
