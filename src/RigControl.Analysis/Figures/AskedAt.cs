namespace RigControl.Analysis.Figures;

/// <summary>What figures are asked at, as a builder states it; null where it is not stated.</summary>
public sealed record AskedAt
{
    /// <summary>Usual share of the steady speed within which a speed counts as settled. Common practice, no source.</summary>
    public const double UsuallySettled = 0.02;

    /// <summary>Nothing is stated.</summary>
    public static AskedAt Nothing { get; } = new();

    /// <summary>Time after the stop output of speed-after and energy-after, s.</summary>
    public double? After { get; init; }

    /// <summary>Speed of time-to-speed, rpm.</summary>
    public double? ToSpeed { get; init; }

    /// <summary>Share of the steady speed within which settling-time counts a speed as settled.</summary>
    public double SettledWithin { get; init; } = UsuallySettled;

    /// <summary>Length of a match for match-share, s.</summary>
    public double? Match { get; init; }

    /// <summary>Share of a match with the output on, 0 to 1.</summary>
    public double? Duty { get; init; }

    /// <summary>Surroundings for time-to-limit and continuous-current, degC; null takes the run's own.</summary>
    public double? Ambient { get; init; }

    /// <summary>Whether something is stated that a figure is asked at.</summary>
    public bool States(AskedPart part) => part switch
    {
        AskedPart.After => After is not null,
        AskedPart.ToSpeed => ToSpeed is not null,
        _ => Match is not null && Duty is not null,
    };
}

/// <summary>Something that a figure is asked at and that has no default.</summary>
public enum AskedPart : byte
{
    After,
    ToSpeed,
    Match,
}
