namespace RigControl.Model.Procedures;

/// <summary>A fault that a step of a verification makes on purpose, and what must be seen of it.</summary>
public sealed record Provocation
{
    /// <summary>Under which it is recorded, kebab-case.</summary>
    public required string Name { get; init; }

    public required ProvocationManner Manner { get; init; }

    /// <summary>The one cause that is expected: an interlock's id, or one of <see cref="Records.TripCauseNames"/>. Null where the host itself provokes and nothing has to trip.</summary>
    public string? Expected { get; init; }

    /// <summary>Interlocks that follow from what is provoked, and therefore do not count while it lasts.</summary>
    public IReadOnlyList<string> Consequences { get; init; } = [];

    /// <summary>What must be seen afterwards, all of it at once, and must not all have been so before. At most <see cref="Records.Capacity.Conditions"/>.</summary>
    public required IReadOnlyList<Condition> Evidence { get; init; }

    /// <summary>Longest time from the provocation to the evidence.</summary>
    public required TimeSpan Allowed { get; init; }

    /// <summary>A limit that is lower during this step; null where none is.</summary>
    public LoweredLimit? Lowered { get; init; }
}

/// <summary>Who provokes, and how. The zero value waits for a person.</summary>
public enum ProvocationManner : byte
{
    /// <summary>A person or the rotor brings the expected cause about. With the power off the host goes on demanding, so that the board alone is seen to stop.</summary>
    Awaited = 0,

    /// <summary>The host stops refreshing its outputs.</summary>
    Silence = 1,

    /// <summary>The host puts out no pulses, with the power on.</summary>
    CeasedPulses = 2,

    /// <summary>The host takes the power away and goes on demanding.</summary>
    PowerCut = 3,

    /// <summary>Nothing is provoked: the output stays at stop under power, and nothing may move.</summary>
    Rest = 4,

    /// <summary>As <see cref="Awaited"/>, while the receiver's pulse goes through the gate.</summary>
    ThroughGate = 5,
}

/// <summary>A limit of an interlock that one step holds lower than the rig file does.</summary>
/// <param name="Interlock">Its id in the rig file.</param>
/// <param name="Option">The option that is the limit.</param>
/// <param name="Value">In the option's unit; below the rig file's own.</param>
public sealed record LoweredLimit(string Interlock, string Option, double Value);

/// <summary>What a person does at the bench in a step.</summary>
/// <param name="Text">As it is shown, a sentence.</param>
/// <param name="Act">The same for a simulated bench.</param>
/// <param name="OnWord">Whether nothing but the person's word tells that it was done.</param>
public sealed record HandAct(string Text, HandMove Act, bool OnWord = false);

/// <summary>A move of a hand at the bench.</summary>
public enum HandMove : byte
{
    None = 0,
    OpenLid = 1,
    CloseLid = 2,
    UnplugLid = 3,
    PlugLid = 4,
    PullLid = 5,
    LetGoLid = 6,
    PressStop = 7,
    ReleaseStop = 8,
    RadioOff = 9,
    RadioOn = 10,

    /// <summary>The transmitter's stick a little from stop, and left there.</summary>
    StickOpen = 11,

    StickAtStop = 12,
}
