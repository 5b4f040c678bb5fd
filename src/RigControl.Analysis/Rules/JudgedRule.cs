using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Analysis.Rules;

/// <summary>A limit of the rules with what was found for it.</summary>
/// <param name="Limit">As the builder copied it.</param>
/// <param name="Found">The figure that comes nearest to it; null where the limit was not judged.</param>
/// <param name="Lack">Why it was not judged; null where it was.</param>
public sealed record JudgedRule(RuleLimit Limit, JudgedFigure? Found, string? Lack);

/// <summary>A figure held against a limit.</summary>
/// <param name="Figure">As the run has it.</param>
/// <param name="Value">In the limit's unit.</param>
/// <param name="Interval">95 %, in the limit's unit; null where it is not known.</param>
public sealed record JudgedFigure(Figure Figure, double Value, (double Low, double High)? Interval, RuleVerdict Verdict);
