namespace RigControl.Model.Records;

/// <summary>The bounds of the fixed-size values. Each is refused with a sentence when a rig exceeds it.</summary>
public static class Capacity
{
    /// <summary>Most interlocks in a rig; one bit each in the masks of a step.</summary>
    public const int Interlocks = 32;

    /// <summary>Most devices in a rig, the host itself included: fixed places keep a scan's record a value.</summary>
    public const int Devices = 16;

    /// <summary>Most commands taken in one scan; the rest waits for the next.</summary>
    public const int Commands = 8;

    /// <summary>Most conditions that may end one step: more nobody reads as one sentence.</summary>
    public const int Conditions = 4;

    /// <summary>Most steps in a procedure: a sweep of thirty levels, or the verification of a rig with a score of temperature ceilings.</summary>
    public const int Steps = 128;
}
