namespace RigControl.Documents;

/// <summary>What came of reading a file: a value, or every problem that stands in its way.</summary>
/// <param name="Value">Null when there is any problem: a file that is half right is not used.</param>
/// <param name="Problems">Sorted by line, then column; empty when the file is in order.</param>
public sealed record Reading<T>(T? Value, IReadOnlyList<Problem> Problems)
    where T : class
{
    /// <summary>Where each part of the value stands in the file, for checks against other files.</summary>
    public Places Places { get; init; } = Places.None;
}
