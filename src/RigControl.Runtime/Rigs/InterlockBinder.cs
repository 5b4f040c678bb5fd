using RigControl.Contracts;
using RigControl.Kernel;
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
    private readonly List<InterlockIdentity> _identities = [];
    private readonly List<string> _reasons = [];

    public IReadOnlyList<InterlockIdentity> Identities => _identities;

    /// <summary>What stands against it, a sentence each.</summary>
    public IReadOnlyList<string> Reasons => _reasons;

    public IReadOnlyList<BoundInterlock> BindAll(IReadOnlyList<InterlockDefinition> definitions) =>
        [.. definitions.Select(Bind).OfType<BoundInterlock>()];

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
            InterlockContext context = new() { Id = definition.Id, Action = definition.Action ?? plugin.Action, Article = article, Channels = channels, Rehearsed = rehearsed };
            IInterlock interlock = plugin.Create(options, context);
            _identities.Add(new InterlockIdentity(definition.Id, definition.Plugin, OptionsReader.Resolved(options)));
            if (post is not null)
                interlock = new WatchedInterlock(definition.Id, interlock, post);
            return new BoundInterlock(definition.Id, interlock, definition.Scope, definition.Reset ?? plugin.Reset);
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
