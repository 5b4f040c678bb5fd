using RigControl.Contracts;
using RigControl.Kernel;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Model.Signals;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Scanning;

namespace RigControl.Runtime.Rigs;

/// <summary>Makes the interlocks of a rig file for the channels there are, or says why each one cannot be made.</summary>
internal sealed class InterlockBinder(
    PluginCatalog catalog, Article article, IReadOnlyList<Channel> channels, IReadOnlyList<RehearsedBand> rehearsed, ScanPost? post = null)
{
    /// <summary>The kind whose place a verification takes: it asks for the proof that the verification is to give.</summary>
    internal const string AsksForProof = "failsafe-confirmed";

    /// <summary>The kind that asks for a fresh closing of the arm key.</summary>
    internal const string AsksForKey = "key-turned";

    private readonly List<InterlockIdentity> _identities = [];
    private readonly List<string> _reasons = [];

    public IReadOnlyList<InterlockIdentity> Identities => _identities;

    /// <summary>What stands against it, a sentence each.</summary>
    public IReadOnlyList<string> Reasons => _reasons;

    /// <summary>Whether a rig asks for the arm key in every step.</summary>
    public static bool AskForKey(RigDefinition rig) => rig.Interlocks.Any(i => i.Plugin == AsksForKey && i.Scope == InterlockScope.EveryStep);

    public IReadOnlyList<BoundInterlock> BindAll(IReadOnlyList<InterlockDefinition> definitions) =>
        [.. definitions.Select((definition, place) => IsWeakened(definition, place, definitions) ? null : Bind(definition)).OfType<BoundInterlock>()];

    /// <summary>Makes the interlocks of a rig once more with a lower limit; null, with a reason, for one that cannot be made.</summary>
    public Func<LoweredLimit, IInterlock?> Lower(RigDefinition rig) => limit => Lower(rig.Interlocks.First(i => i.Id == limit.Interlock), limit);

    private IInterlock? Lower(InterlockDefinition definition, LoweredLimit lower)
    {
        if (definition.Options.GetValueOrDefault(lower.Option) is not double limit || !(lower.Value < limit))
        {
            _reasons.Add($"interlock {definition.Id}: {lower.Option} is not a limit that could be lowered to {lower.Value}");
            return null;
        }

        Dictionary<string, object> options = new(definition.Options) { [lower.Option] = lower.Value };
        IInterlock? lowered = Bind(definition with { Options = options })?.Interlock;
        // It stands in the record with the rig file's own limit; the lowered one stands in the step.
        _identities.RemoveAt(_identities.Count - 1);
        return lowered;
    }

    // Whoever puts a rig together without a file comes by here too.
    private bool IsWeakened(InterlockDefinition definition, int place, IReadOnlyList<InterlockDefinition> all)
    {
        if (!catalog.Interlocks.TryGetValue(definition.Plugin, out IInterlockPlugin? plugin))
            return false;
        WeakenedCut[] weakened = [.. PowerCuts.Of(definition, place, plugin, all)];
        _reasons.AddRange(weakened.Select(w => $"interlock {definition.Id}: {w.What}; {w.Remedy}"));
        return weakened.Length > 0;
    }

    // One that always cuts is made to cut, whatever its plugin says besides.
    private static DemandAction ActionOf(InterlockDefinition definition, IInterlockPlugin plugin) =>
        plugin.AlwaysCutsPower ? DemandAction.CutPower : definition.Action ?? plugin.Action;

    private BoundInterlock? Bind(InterlockDefinition definition)
    {
        if (!catalog.Interlocks.TryGetValue(definition.Plugin, out IInterlockPlugin? plugin))
        {
            _reasons.Add($"interlock {definition.Id}: no installed plugin makes {definition.Plugin}");
            return null;
        }

        try
        {
            object options = OptionsReader.Fill(plugin.OptionsType, definition.Options);
            InterlockContext context = new() { Id = definition.Id, Action = ActionOf(definition, plugin), Article = article, Channels = channels, Rehearsed = rehearsed };
            IInterlock interlock = plugin.Create(options, context);
            _identities.Add(new InterlockIdentity(definition.Id, definition.Plugin, OptionsReader.Resolved(options)));
            if (post is not null)
                interlock = new WatchedInterlock(definition.Id, interlock, post);
            return new BoundInterlock(definition.Id, interlock, definition.Scope, definition.Reset ?? plugin.Reset, definition.Plugin == AsksForProof);
        }
#pragma warning disable CA1031 // Whatever goes wrong inside a plugin is its own fault and is reported under its name.
        catch (Exception e)
#pragma warning restore CA1031
        {
            _reasons.Add($"interlock {definition.Id}: {e.Message}");
            return null;
        }
    }
}
