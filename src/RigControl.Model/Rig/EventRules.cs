namespace RigControl.Model.Rig;

/// <summary>
/// Limits that a builder copied from the rules of an event, each with where it stands and of which day. The program ships
/// none: rules change, and a number without its source helps nobody on the day.
/// </summary>
/// <param name="Name">Name of the set, <c>[a-z0-9-]</c>.</param>
/// <param name="Limits">At most one of each kind; empty in a blank file.</param>
public sealed record EventRules(string Name, IReadOnlyList<RuleLimit> Limits)
{
    /// <summary>The limit of a kind; null where the builder has copied none.</summary>
    public RuleLimit? Find(RuleKind kind) => Limits.FirstOrDefault(l => l.Kind == kind);
}

/// <summary>One limit, never to be passed.</summary>
/// <param name="Value">In kg, m/s, s or V, as <paramref name="Kind"/> says.</param>
/// <param name="Source">Where it stands, as the builder wrote it.</param>
/// <param name="Date">The day of the edition it was copied from.</param>
public sealed record RuleLimit(RuleKind Kind, double Value, string Source, DateOnly Date);

/// <summary>What a limit is a limit of.</summary>
public enum RuleKind : byte
{
    /// <summary>Mass of the whole robot, kg.</summary>
    ClassMass = 0,

    /// <summary>Speed at the weapon's largest radius, m/s.</summary>
    TipSpeed = 1,

    /// <summary>From the stop to a weapon at rest, s.</summary>
    StoppingTime = 2,

    /// <summary>Highest voltage on board, V.</summary>
    Voltage = 3,
}
