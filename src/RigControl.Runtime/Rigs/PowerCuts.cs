using RigControl.Contracts;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Plugins;

namespace RigControl.Runtime.Rigs;

/// <summary>What would weaken an interlock whose trip has to remove the power at once.</summary>
/// <param name="Place">Of the interlock in the rig's list, from 0.</param>
/// <param name="Key">Of the rig file that weakens it.</param>
/// <param name="What">What is wrong, without a full stop.</param>
/// <param name="Remedy">What to write instead, without a full stop.</param>
public sealed record WeakenedCut(int Place, string Key, string What, string Remedy);

/// <summary>
/// A stop that is pressed, a lid that opens, a rotor that is too fast or out of sight: whatever their plugin says removes the power always
/// does so at once and in every step. A rig that asks for less is refused before anything is opened, and once more where its interlocks are made.
/// </summary>
public static class PowerCuts
{
    private const string ReadsStop = "stop-clear";

    /// <summary>Everything in a rig that weakens such an interlock; empty where nothing does. Kinds that no plugin makes are left to others.</summary>
    public static IReadOnlyList<WeakenedCut> Weakened(RigDefinition rig, PluginCatalog catalog) =>
        [.. rig.Interlocks.SelectMany((interlock, place) => catalog.Interlocks.TryGetValue(interlock.Plugin, out IInterlockPlugin? plugin) ? Of(interlock, place, plugin, rig.Interlocks) : [])];

    internal static IEnumerable<WeakenedCut> Of(InterlockDefinition interlock, int place, IInterlockPlugin plugin, IReadOnlyList<InterlockDefinition> all)
    {
        if (!plugin.AlwaysCutsPower)
            yield break;
        if (interlock.Action is { } action && action != DemandAction.CutPower)
            yield return new(place, "action", $"a trip of {plugin.Kind} removes the power at once, and no rig file may ask for less", "write `action: cut-power`, or leave `action` out");
        if (interlock.Scope != InterlockScope.EveryStep && !all.Any(other => CountsAlways(other, interlock)))
        {
            yield return new(
                place, "scope", $"{plugin.Kind} removes the power in every step, and no rig file may limit it to some",
                "write `scope: every-step`, or leave `scope` out; one for named steps may stand beside one for every step on the same channels");
        }
    }

    /// <summary>What is said of a rig that reads a stop circuit on which nothing stops; null where every circuit is watched.</summary>
    /// <param name="supplied">Channels by the device's own name and the rig's: no rig file renames a stop away.</param>
    public static string? StopLeftAlone(RigDefinition rig, IEnumerable<(string Own, string Name)> supplied)
    {
        string[] watched = [.. rig.Interlocks.Where(i => i is { Plugin: ReadsStop, Scope: InterlockScope.EveryStep }).Select(i => i.Options.GetValueOrDefault("channel") as string ?? ChannelNames.StopClear)];
        string[] alone = [.. supplied.Where(c => c.Own == ChannelNames.StopClear || c.Name == ChannelNames.StopClear).Select(c => c.Name).Where(n => !watched.Contains(n))];
        return alone.Length == 0
            ? null
            : $"the rig reads a stop circuit ({string.Join(", ", alone)}), and a stop pressed there would stop nothing; add an interlock `plugin: {ReadsStop}` with `options: {{ channel: {alone[0]} }}` that counts in every step";
    }

    // Another limit for some steps takes nothing away where the same channels are watched in all of them.
    private static bool CountsAlways(InterlockDefinition other, InterlockDefinition limited) =>
        other.Plugin == limited.Plugin && other.Scope == InterlockScope.EveryStep && ChannelsOf(other).SetEquals(ChannelsOf(limited));

    private static HashSet<(string, string)> ChannelsOf(InterlockDefinition interlock) =>
        [.. interlock.Options.Where(o => o.Value is string).Select(o => (o.Key, (string)o.Value))];
}
