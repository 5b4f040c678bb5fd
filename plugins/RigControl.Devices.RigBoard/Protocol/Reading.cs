namespace RigControl.Devices.RigBoard.Protocol;

/// <summary>One analogue input over a frame. Zero is no reading.</summary>
/// <param name="Lowest">counts, 0 to 1023.</param>
/// <param name="Mean">counts, to a tenth.</param>
/// <param name="Highest">counts, 0 to 1023.</param>
internal readonly record struct Reading(ushort Lowest, double Mean, ushort Highest)
{
    /// <summary>Counts at which the converter is at the end of its range, so that the truth may lie beyond.</summary>
    public const ushort End = 1023;

    /// <summary>Whether anything was read in the frame. The board writes <c>1023 0 0</c> when not.</summary>
    public bool Taken => Lowest <= Highest && this != default;

    public static Reading Take(ref LineFields fields) => new(
        (ushort)fields.Decimal(End), fields.Decimal(End * 10) / 10.0, (ushort)fields.Decimal(End));
}
