using RigControl.Documents.Values;
using RigControl.Model.Rig;

namespace RigControl.Documents.Articles;

/// <summary>Reads how well the article's data are known: relative standard uncertainties, each of its own key.</summary>
internal static class UncertaintyReader
{
    private static readonly Bounds Share = new("%", 0, 50);

    public static IReadOnlyDictionary<string, double> Read(Fields? fields)
    {
        Dictionary<string, double> stated = [];
        if (fields is null)
            return stated;
        foreach (string key in UncertaintyKeys.All.Keys)
        {
            if (fields.OptionalQuantity(key, Share) is { } percent)
                stated[key] = percent / 100;
        }
        fields.Close();
        return stated;
    }
}
