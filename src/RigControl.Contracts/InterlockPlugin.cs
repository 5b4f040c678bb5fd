using RigControl.Model.Rig;
using RigControl.Model.Signals;

namespace RigControl.Contracts;

/// <summary>Makes interlocks of one kind. Use <see cref="InterlockPlugin{TOptions}"/>.</summary>
public interface IInterlockPlugin
{
    /// <summary>Kebab-case name that a rig file writes after <c>plugin:</c>.</summary>
    string Kind { get; }

    /// <summary>One sentence for the list of plugins.</summary>
    string Meaning { get; }

    /// <summary>Number of the requirement in SAFETY.md that it serves, such as SAF-012.</summary>
    string Requirement { get; }

    /// <summary>What it asks for when tripped, unless the rig file says otherwise.</summary>
    DemandAction Action { get; }

    /// <summary>
    /// Whether its trip removes the power at once wherever it stands: what a person pressed or may reach into, or a rotor that its pulse
    /// may no longer hold. No rig file may then ask for less, or limit it to some steps. Default no.
    /// </summary>
    bool AlwaysCutsPower => false;

    /// <summary>What lets its latch go, unless the rig file says otherwise.</summary>
    ResetPolicy Reset { get; }

    Type OptionsType { get; }

    /// <summary>Throws <see cref="OptionException"/> when the options do not fit together.</summary>
    IInterlock Create(object options, InterlockContext context);
}

/// <summary>Makes interlocks of one kind from options of one type.</summary>
public abstract class InterlockPlugin<TOptions> : IInterlockPlugin
    where TOptions : class, new()
{
    public abstract string Kind { get; }

    public abstract string Meaning { get; }

    public abstract string Requirement { get; }

    public virtual DemandAction Action => DemandAction.CutPower;

    /// <inheritdoc cref="IInterlockPlugin.AlwaysCutsPower"/>
    public virtual bool AlwaysCutsPower => false;

    public virtual ResetPolicy Reset => ResetPolicy.Operator;

    Type IInterlockPlugin.OptionsType => typeof(TOptions);

    IInterlock IInterlockPlugin.Create(object options, InterlockContext context)
    {
        OptionCheck.Require(options);
        return Create((TOptions)options, context);
    }

    /// <inheritdoc cref="IInterlockPlugin.Create"/>
    protected abstract IInterlock Create(TOptions options, InterlockContext context);
}

/// <summary>What an interlock is told when it is made.</summary>
public sealed record InterlockContext
{
    /// <summary>Id of the interlock in the rig file.</summary>
    public required string Id { get; init; }

    /// <summary>What it asks for when tripped.</summary>
    public required DemandAction Action { get; init; }

    public required Article Article { get; init; }

    /// <summary>The rig's channels, in the order of the input image.</summary>
    public required IReadOnlyList<Channel> Channels { get; init; }

    /// <summary>Between which values the run was rehearsed to stay; empty without a rehearsal.</summary>
    public IReadOnlyList<RehearsedBand> Rehearsed { get; init; } = [];

    /// <summary>The channel of a name. Throws <see cref="OptionException"/> naming the channels there are.</summary>
    /// <param name="name">As the rig file names it.</param>
    /// <param name="unit">Unit that the interlock reckons in.</param>
    public Channel Require(string name, string unit)
    {
        Channel channel = Require(name);
        return channel.Declaration.Unit == unit
            ? channel
            : throw new OptionException($"the channel {name} is in {channel.Declaration.Unit}, but {Id} reckons in {unit}");
    }

    /// <summary>The channel of a name, in whatever unit. Throws <see cref="OptionException"/> naming the channels there are.</summary>
    /// <param name="name">As the rig file names it.</param>
    public Channel Require(string name) => Channels.FirstOrDefault(c => c.Name == name)
        ?? throw new OptionException($"no device supplies the channel {name}; there are {string.Join(", ", Channels.Select(c => c.Name))}");
}

/// <summary>Options that do not fit the rig or each other. The message is a sentence that a person can act on.</summary>
public sealed class OptionException(string message) : Exception(message);
