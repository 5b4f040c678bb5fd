namespace RigControl.Documents;

/// <summary>One thing wrong with a file, where it is, and what to write instead.</summary>
/// <param name="File">Name of the file as the caller gave it.</param>
/// <param name="Line">From 1.</param>
/// <param name="Column">From 1, counted in UTF-16 characters.</param>
/// <param name="What">What is wrong, without a full stop.</param>
/// <param name="Remedy">What to write instead, without a full stop.</param>
public sealed record Problem(string File, int Line, int Column, string What, string Remedy)
{
    /// <summary>One line: <c>file:line:column: what is wrong; what to write instead</c>.</summary>
    public override string ToString() => $"{File}:{Line}:{Column}: {What}; {Remedy}";
}
