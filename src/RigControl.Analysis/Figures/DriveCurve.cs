using RigControl.Analysis.Pictures;

namespace RigControl.Analysis.Figures;

/// <summary>How one quantity of a repeat goes with another.</summary>
/// <param name="Name">Of the quantity; kebab-case.</param>
/// <param name="Unit">Of the quantity.</param>
/// <param name="Across">What it goes with.</param>
/// <param name="AcrossUnit">Of that.</param>
public sealed record DriveCurve(string Name, string Unit, string Across, string AcrossUnit, int Repeat, string Method)
{
    /// <summary>In ascending order, each with its 95 % interval; empty where there is none.</summary>
    public IReadOnlyList<CurvePoint> Points { get; init; } = [];

    /// <summary>Why there is none; null where there is.</summary>
    public string? Note { get; init; }
}
