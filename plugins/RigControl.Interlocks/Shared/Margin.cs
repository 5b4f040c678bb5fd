namespace RigControl.Interlocks.Shared;

/// <summary>How far a reading is from its limit, as a share of the limit: 1 far away, 0 at the limit, negative beyond. Limits are above zero.</summary>
internal static class Margin
{
    /// <summary>Below a limit that may not be passed upwards.</summary>
    public static double Under(double value, double limit) => Math.Min(1, (limit - value) / limit);

    /// <summary>Above a limit that may not be passed downwards.</summary>
    public static double Over(double value, double limit) => Math.Min(1, (value - limit) / limit);

    /// <summary>A limit that is passed but still allowed for a while: nothing left, but not beyond.</summary>
    public static double Allowed(double margin) => Math.Max(0, margin);
}
