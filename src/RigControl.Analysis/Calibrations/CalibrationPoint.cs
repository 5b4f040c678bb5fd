namespace RigControl.Analysis.Calibrations;

/// <summary>A reading beside what it should have been, both in the channel's unit.</summary>
/// <param name="ReadingUncertainty">Standard uncertainty of the reading: its scatter over the root of the samples, and its step.</param>
/// <param name="ReferenceUncertainty">Standard uncertainty of the reference: of a weight, a voltage source, a bath of ice.</param>
public readonly record struct CalibrationPoint(double Reading, double ReadingUncertainty, double Reference, double ReferenceUncertainty);

/// <summary>What is corrected.</summary>
public enum CalibrationKind : byte
{
    /// <summary>True = reading + a.</summary>
    Offset,

    /// <summary>True = b × reading.</summary>
    Gain,

    /// <summary>True = a + b × reading.</summary>
    Line,

    /// <summary>True = a + b × reading + c × reading².</summary>
    Curve,
}
