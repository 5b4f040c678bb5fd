using RigControl.Model.Signals;

namespace RigControl.Interlocks.Shared;

/// <summary>
/// The reading farthest from zero since the last scan. Sign does not matter to a limit: a sensor wired the wrong way
/// round, or a rotor turning backwards, must trip as well.
/// </summary>
/// <param name="Value">With its sign, in the channel's unit.</param>
/// <param name="At">When it was read.</param>
internal readonly record struct Extreme(double Value, TimeSpan At)
{
    public double Size => Value < 0 ? -Value : Value;

    public static Extreme Of(in ImageEntry entry) => entry.Maximum >= -entry.Minimum
        ? new Extreme(entry.Maximum, entry.MaximumAt)
        : new Extreme(entry.Minimum, entry.MinimumAt);
}
