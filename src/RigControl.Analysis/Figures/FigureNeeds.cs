namespace RigControl.Analysis.Figures;

/// <summary>What a rig, an article and a procedure must have for a figure; small enough to be looked at before anything runs.</summary>
/// <param name="Channels">All of them are read.</param>
/// <param name="Declared">What the article must declare.</param>
/// <param name="Steps">What the procedure must do.</param>
public sealed record FigureNeeds(IReadOnlyList<string> Channels, IReadOnlyList<ArticlePart> Declared, IReadOnlyList<RunPart> Steps)
{
    /// <summary>Whether a temperature is needed, of whatever part.</summary>
    public bool AnyTemperature { get; init; }

    /// <summary>Channels that it looks at where there are such, besides those that it cannot do without.</summary>
    public IReadOnlyList<string> Besides { get; init; } = [];

    /// <summary>What must be stated that the figure is asked at.</summary>
    public IReadOnlyList<AskedPart> Asked { get; init; } = [];

    /// <summary>Whether a temperature must be stated up to which a part may go.</summary>
    public bool Limit { get; init; }
}

/// <summary>A part of the article's file.</summary>
public enum ArticlePart : byte
{
    Rotor,
    Pack,

    /// <summary>No rotor may be mounted.</summary>
    NoRotor,

    /// <summary>A controller that lets the rotor run down.</summary>
    NoBraking,
}

/// <summary>A part of a run.</summary>
public enum RunPart : byte
{
    Rise,
    Hold,
    CoastDown,

    /// <summary>A person is asked for a reading, or tries something.</summary>
    Question,
}
