namespace RigControl.Model.Procedures;

/// <summary>One step of a procedure.</summary>
public sealed record Step
{
    public required StepKind Kind { get; init; }

    /// <summary>Level to reach or hold, share of the range above stop; 0 for steps without output.</summary>
    public double Throttle { get; init; }

    /// <summary>Level of the second output to reach or hold, as a share; 0 is its stop.</summary>
    public double SecondThrottle { get; init; }

    /// <summary>Time over which both outputs go from where they are to their levels.</summary>
    public TimeSpan Ramp { get; init; }

    /// <summary>The step ends by itself after this time; null where only a condition ends it.</summary>
    public TimeSpan? For { get; init; }

    /// <summary>The step ends when any of these is met, once a ramp is done. At most four.</summary>
    public IReadOnlyList<Condition> Until { get; init; } = [];

    /// <summary>The step must have ended by then, or the rig stops. For arm: from the operator's arm to ready.</summary>
    public required TimeSpan Timeout { get; init; }

    /// <summary>Interlocks asked once, at the entry of the step.</summary>
    public IReadOnlyList<string> Permissives { get; init; } = [];

    /// <summary>Interlocks of named steps that count during this one.</summary>
    public IReadOnlyList<string> Interlocks { get; init; } = [];

    /// <summary>What a person is asked; null for the other kinds.</summary>
    public Question? Question { get; init; }

    /// <summary>What the step provokes; only in a verification.</summary>
    public Provocation? Provocation { get; init; }

    /// <summary>What a person does in the step; null where nobody has to.</summary>
    public HandAct? Hand { get; init; }

    /// <summary>Whether the power stays off although the rig is armed; only in a verification.</summary>
    public bool Unpowered { get; init; }

    /// <summary>Whether the marker light shows at the entry of the step.</summary>
    public bool Marks { get; init; }

    /// <summary>The item of the file's list that the step was written in, from 0: a sweep is one item and several steps.</summary>
    public int Item { get; init; }

    /// <summary>The kind as the file writes it.</summary>
    public string Written { get; init; } = "";
}
