using RigControl.Model.Records;

namespace RigControl.Logbook.Texts;

/// <summary>How the kind of a remark stands in the file, for people and other programs.</summary>
internal static class RemarkNames
{
    private static readonly string[] Names = ["note", "incident", "part-changed"];

    public static string Name(RemarkKind kind) => Names[(int)kind];

    public static RemarkKind Parse(string name) => Array.IndexOf(Names, name) is >= 0 and var place
        ? (RemarkKind)place
        : throw new InvalidDataException($"no remark is called '{name}'");
}
