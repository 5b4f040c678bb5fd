namespace RigControl.Analysis.Commissioning;

/// <summary>What a run with the rotor off says about one value that a builder has declared.</summary>
/// <param name="Key">Key of the file that it is about, or what else it is about.</param>
/// <param name="Verdict">Whether the declared value holds.</param>
/// <param name="Write">The value to write instead, with its unit; null where there is none to write.</param>
/// <param name="Says">What was seen and what it means, a sentence.</param>
public sealed record Finding(string Key, Verdict Verdict, string? Write, string Says);

/// <summary>Whether a declared value holds. The zero value claims nothing.</summary>
public enum Verdict : byte
{
    /// <summary>The run does not tell.</summary>
    Unknown = 0,

    Holds = 1,

    /// <summary>Another value is to be written.</summary>
    Change = 2,

    /// <summary>Something is wrong that no value mends.</summary>
    Wrong = 3,
}
