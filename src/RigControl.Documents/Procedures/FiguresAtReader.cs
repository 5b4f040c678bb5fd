using RigControl.Documents.Values;

namespace RigControl.Documents.Procedures;

/// <summary>Reads what a procedure's figures are asked at: a value for each key that is stated, in the unit of its range.</summary>
internal static class FiguresAtReader
{
    public static IReadOnlyDictionary<string, double> Read(Fields? fields)
    {
        Dictionary<string, double> stated = [];
        if (fields is null)
            return stated;
        foreach ((string key, Bounds range) in FiguresAt.Ranges)
        {
            if (fields.OptionalQuantity(key, range) is { } value)
                stated[key] = value;
        }
        fields.Close();
        // One that is wrong by itself is reported already.
        if (fields.Has(FiguresAt.Match) != fields.Has(FiguresAt.Duty) && FiguresAt.Missing(stated) is { } missing)
            fields.Problems.Add(fields.Place, $"{fields.Owner} states only one of `match` and `duty`", $"write `{missing}:` and a value {FiguresAt.Range(missing)}");
        return stated;
    }
}
