namespace RigControl.Documents.Procedures;

/// <summary>The figures that a procedure may ask for.</summary>
public static class FigureNames
{
    public static IReadOnlyList<string> All { get; } =
    [
        "spin-up-time", "time-to-speed", "settling-time", "steady-speed", "peak-speed", "tip-speed", "stored-energy", "coast-down-time", "speed-after", "energy-after",
        "drag-constant", "drag-linear", "drag-quadratic",
        "charge-used", "energy-used", "peak-current", "peak-power", "mean-current", "minimum-voltage", "peak-voltage", "voltage-sag",
        "temperature-rise", "thermal-time-constant", "thermal-resistance", "time-to-limit", "continuous-current",
        "motor-kv", "torque-constant", "winding-resistance", "no-load-current", "stall-current", "peak-torque", "peak-mechanical-power", "best-efficiency",
        "pack-resistance", "battery-share", "match-share", "state-of-charge",
        "time-constant", "vibration", "inertia", "mass", "drive-speed", "acceleration", "pushing-force", "reaction-time",
        "pull-out-force", "breaking-load", "servo-travel-time", "holding-torque", "success-rate", "median-life", "lift-turn-rate",
    ];
}
