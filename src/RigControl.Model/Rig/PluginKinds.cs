namespace RigControl.Model.Rig;

/// <summary>One kind of device or interlock that an installed plugin can make.</summary>
/// <param name="Name">What a rig file writes after <c>plugin:</c>.</param>
/// <param name="Meaning">One sentence.</param>
/// <param name="Options">What may be written under <c>options:</c>.</param>
public sealed record PluginKind(string Name, string Meaning, IReadOnlyList<OptionDescription> Options);

/// <summary>All kinds that are installed: what a rig file can be checked against before anything is opened.</summary>
/// <param name="Devices">By name.</param>
/// <param name="Interlocks">By name.</param>
public sealed record PluginKinds(IReadOnlyDictionary<string, PluginKind> Devices, IReadOnlyDictionary<string, PluginKind> Interlocks);
