namespace RigControl.Runtime.Sessions;

/// <summary>How fast a session's clock runs. Anything but the real clock is lock-step and needs a rig that never blocks.</summary>
/// <param name="Kind">Real, as fast as it goes, or a multiple of real time.</param>
/// <param name="Factor">The multiple; 1 otherwise.</param>
public readonly record struct Pace(PaceKind Kind, double Factor)
{
    public static Pace Real => new(PaceKind.Real, 1);

    public static Pace Max => new(PaceKind.Max, 1);

    public static Pace Times(double factor) => new(PaceKind.Times, factor);

    /// <summary>Reads <c>real</c>, <c>max</c> or a number from 0.01 to 1000; null when it is none of them.</summary>
    public static Pace? Parse(string text) => text switch
    {
        "real" => Real,
        "max" => Max,
        _ when double.TryParse(text, System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture, out double factor)
            && factor is >= 0.01 and <= 1000 => Times(factor),
        _ => null,
    };
}

/// <summary>The three ways a session's clock can run.</summary>
public enum PaceKind
{
    Real = 0,
    Max = 1,
    Times = 2,
}
