namespace RigControl.Rehearsal.Bench;

/// <summary>
/// How well the bench's parameters are known, as relative standard uncertainties. An article's file may state its own; what it
/// leaves out has these values, which are common practice without a source: a weighed and reckoned inertia, data sheets of
/// motors and packs, and drag and heat that nobody has measured yet.
/// </summary>
public sealed record Spread
{
    public double Inertia { get; init; } = 0.02;

    public double SpeedConstant { get; init; } = 0.03;

    public double WindingResistance { get; init; } = 0.10;

    public double NoLoadCurrent { get; init; } = 0.15;

    public double Capacity { get; init; } = 0.05;

    public double PackResistance { get; init; } = 0.20;

    public double Drag { get; init; } = 0.30;

    public double Windage { get; init; } = 0.15;

    public double Heat { get; init; } = 0.20;

    /// <summary>Of the ambient temperature, K.</summary>
    public double Ambient { get; init; } = 3;

    /// <summary>What an article states, and these values for the rest.</summary>
    /// <param name="stated">Relative standard uncertainties by key; keys that are none are left out.</param>
    public static Spread Of(IReadOnlyDictionary<string, double> stated)
    {
        Spread usual = new();
        return usual with
        {
            Inertia = stated.GetValueOrDefault("inertia", usual.Inertia),
            SpeedConstant = stated.GetValueOrDefault("kv", usual.SpeedConstant),
            WindingResistance = stated.GetValueOrDefault("winding-resistance", usual.WindingResistance),
            NoLoadCurrent = stated.GetValueOrDefault("no-load-current", usual.NoLoadCurrent),
            Capacity = stated.GetValueOrDefault("capacity", usual.Capacity),
            PackResistance = stated.GetValueOrDefault("pack-resistance", usual.PackResistance),
            Drag = stated.GetValueOrDefault("drag", usual.Drag),
            Windage = stated.GetValueOrDefault("windage", usual.Windage),
            Heat = stated.GetValueOrDefault("heat", usual.Heat),
        };
    }
}
