namespace RigControl.Documents;

/// <summary>A place in a text.</summary>
/// <param name="Line">From 1.</param>
/// <param name="Column">From 1, counted in UTF-16 characters.</param>
public readonly record struct Place(int Line, int Column)
{
    public static readonly Place Start = new(1, 1);
}
