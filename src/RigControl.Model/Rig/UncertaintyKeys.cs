namespace RigControl.Model.Rig;

/// <summary>What an article may state the uncertainty of.</summary>
public static class UncertaintyKeys
{
    /// <summary>Each key of an article's <c>uncertainty</c>, with what it is about.</summary>
    public static IReadOnlyDictionary<string, string> All { get; } = new Dictionary<string, string>
    {
        ["inertia"] = "inertia of the rotor",
        ["kv"] = "speed constant of the motor",
        ["winding-resistance"] = "winding resistance of the motor",
        ["no-load-current"] = "no-load current of the motor",
        ["capacity"] = "capacity of the pack",
        ["pack-resistance"] = "resistance of the pack",
        ["drag"] = "drag of bearings and seals",
        ["windage"] = "drag of the rotor in air",
        ["heat"] = "heat capacities and couplings",
    };
}
