namespace RigControl.Analysis.Rules;

/// <summary>How something stands to a limit that a builder copied from the rules of an event. The zero value promises nothing.</summary>
public enum RuleVerdict
{
    /// <summary>The limit lies within the interval of what was measured, or the interval is not known.</summary>
    TooClose = 0,

    /// <summary>All of the interval keeps to the limit.</summary>
    Inside = 1,

    /// <summary>All of the interval is beyond the limit.</summary>
    Outside = 2,
}
