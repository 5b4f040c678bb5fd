namespace RigControl.Model.Procedures;

/// <summary>One step of a procedure.</summary>
public sealed record Step
{
    public required StepKind Kind { get; init; }

    /// <summary>Level to reach or hold, share of the range above stop; 0 for steps without output.</summary>
    public double Throttle { get; init; }

    /// <summary>Time over which the throttle rises from where it is to <see cref="Throttle"/>.</summary>
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
}
