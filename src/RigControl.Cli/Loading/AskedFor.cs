using RigControl.Analysis.Figures;
using RigControl.Documents;
using RigControl.Documents.Procedures;

namespace RigControl.Cli.Loading;

/// <summary>What figures are asked at, from a procedure's text or from options.</summary>
internal static class AskedFor
{
    /// <summary>As the procedure states it: what is recorded with a run is read again from its text.</summary>
    public static AskedAt InProcedure(string text) => Of(DocumentReader.ReadFiguresAt(text));

    /// <param name="stated">By key of <see cref="FiguresAt"/>, in the key's unit.</param>
    public static AskedAt Of(IReadOnlyDictionary<string, double> stated)
    {
        double? Value(string key) => stated.TryGetValue(key, out double value) ? value : null;
        return new AskedAt
        {
            After = Value(FiguresAt.After), ToSpeed = Value(FiguresAt.ToSpeed), Match = Value(FiguresAt.Match), Duty = Value(FiguresAt.Duty) / 100,
            Ambient = Value(FiguresAt.Ambient), SettledWithin = Value(FiguresAt.SettledWithin) / 100 ?? AskedAt.UsuallySettled,
        };
    }
}
