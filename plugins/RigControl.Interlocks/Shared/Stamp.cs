namespace RigControl.Interlocks.Shared;

/// <summary>A reading cannot be older than the session nor younger than the scan, whatever its stamp says.</summary>
internal static class Stamp
{
    public static TimeSpan Between(TimeSpan low, TimeSpan value, TimeSpan high) => value > high ? high : value < low ? low : value;
}
