namespace RigControl.Documents;

/// <summary>Which of the four files a text is.</summary>
public enum DocumentKind : byte
{
    /// <summary>None of its lines begins with the key of a known kind.</summary>
    Unknown = 0,
    Procedure = 1,
    Article = 2,
    Rig = 3,
    Rules = 4,
}
