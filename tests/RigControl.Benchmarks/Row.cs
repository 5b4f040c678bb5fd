namespace RigControl.Benchmarks;

/// <summary>One line of the table.</summary>
internal sealed record Row(string What, string Measured, string Reference, string Ratio);
