namespace RigControl.Model.Rig;

/// <summary>What keeps people from the rotor, as the builder of the enclosure declares it. Nothing in it is measured by this program.</summary>
public sealed record GuardDefinition
{
    public required GuardKind Kind { get; init; }

    /// <summary>Where the times and lengths come from: measured how, by whom and when.</summary>
    public required string Source { get; init; }

    /// <summary>Shortest time from the first move at the guard until a hand can reach the rotor; null where not declared.</summary>
    public TimeSpan? OpeningTime { get; init; }

    /// <summary>By how much of the stopping time the opening time of a fixed guard must be longer, a share; null where not declared.</summary>
    public double? Margin { get; init; }

    /// <summary>From the guard's opening to the nearest point that can hurt, m; null where not declared.</summary>
    public double? Distance { get; init; }

    /// <summary>Widest gap of the guard at which its contact has not yet opened, m; null where not declared.</summary>
    public double? Gap { get; init; }

    /// <summary>How the lock is opened without power; null where there is no lock, or nothing is said of it.</summary>
    public AuxiliaryRelease? Release { get; init; }
}

/// <summary>The lock's mechanical release for a rig without power.</summary>
/// <param name="NeedsTool">Whether nobody opens it without a tool.</param>
/// <param name="OpensCoil">Whether it opens the coil circuit of the contactor by itself, so that nothing is powered behind it.</param>
public sealed record AuxiliaryRelease(bool NeedsTool, bool OpensCoil);

/// <summary>Kinds of guard. The zero value is the one that is refused.</summary>
public enum GuardKind : byte
{
    /// <summary>A person can get into it whole. Such an enclosure is not for this program.</summary>
    Enterable = 0,

    /// <summary>A lid or door whose contacts stop the rig, with a bolt or without.</summary>
    Interlocked = 1,

    /// <summary>Held by fasteners that need a tool.</summary>
    Fixed = 2,
}
