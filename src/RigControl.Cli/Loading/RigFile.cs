using RigControl.Documents;
using RigControl.Model.Rig;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Loading;

/// <summary>A rig file as every command reads it: its text against the plugins, and what it asks of interlocks that always cut the power.</summary>
internal static class RigFile
{
    public static Reading<RigDefinition> Read(string text, string file, PluginCatalog catalog)
    {
        Reading<RigDefinition> reading = DocumentReader.ReadRig(text, file, catalog.Kinds);
        if (reading.Value is not { } rig)
            return reading;
        Problem[] weakened = [.. PowerCuts.Weakened(rig, catalog).Select(w => At(reading.Places, w)).OrderBy(p => p.Line).ThenBy(p => p.Column)];
        return weakened.Length == 0 ? reading : reading with { Value = null, Problems = weakened };
    }

    private static Problem At(Places places, WeakenedCut weakened)
    {
        Place place = places.Of("interlocks", weakened.Place, weakened.Key);
        return new Problem(places.File, place.Line, place.Column, weakened.What, weakened.Remedy);
    }
}
