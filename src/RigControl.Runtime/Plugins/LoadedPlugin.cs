using RigControl.Contracts;
using RigControl.Model.Records;

namespace RigControl.Runtime.Plugins;

/// <summary>One plugin assembly and what it can make.</summary>
/// <param name="Identity">Assembly, version and digest of its folder.</param>
/// <param name="Contract">Contract version it was built against.</param>
public sealed record LoadedPlugin(
    PluginIdentity Identity, Version Contract, IReadOnlyList<IDevicePlugin> Devices, IReadOnlyList<IInterlockPlugin> Interlocks);

/// <summary>A folder that holds no usable plugin, and why.</summary>
/// <param name="Assembly">Name of the folder and of the assembly it should hold.</param>
/// <param name="Reason">A sentence.</param>
public sealed record BrokenPlugin(string Assembly, string Reason);
