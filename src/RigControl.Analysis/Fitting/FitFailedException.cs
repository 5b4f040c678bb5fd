namespace RigControl.Analysis.Fitting;

/// <summary>Why no fit can be had from the data: a clause that completes "no value: …".</summary>
public sealed class FitFailedException(string reason) : Exception(reason);
