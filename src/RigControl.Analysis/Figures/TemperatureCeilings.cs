using RigControl.Model.Rig;

namespace RigControl.Analysis.Figures;

/// <summary>The builder's own ceilings, which time-to-limit and continuous-current are asked for in a run and in its rehearsal.</summary>
public static class TemperatureCeilings
{
    /// <summary>Of the rig's interlocks: degC by channel. Of several for a channel the lowest, which stops the rig first.</summary>
    public static IReadOnlyDictionary<string, double> Of(RigDefinition rig)
    {
        Dictionary<string, double> ceilings = [];
        foreach (InterlockDefinition interlock in rig.Interlocks.Where(i => i.Plugin == "temperature-ceiling"))
        {
            if (interlock.Options.GetValueOrDefault("channel") is string channel && interlock.Options.GetValueOrDefault("ceiling") is double ceiling)
                ceilings[channel] = Math.Min(ceiling, ceilings.GetValueOrDefault(channel, double.PositiveInfinity));
        }

        return ceilings;
    }
}
