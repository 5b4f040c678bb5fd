namespace RigControl.Model.Signals;

/// <summary>A channel of the assembled rig: a declaration with its place and its supplier.</summary>
/// <param name="Index">Place in the rig's channel list and in every <see cref="InputImage"/>.</param>
/// <param name="Name">Name in the rig, unique.</param>
/// <param name="Device">Place of the supplying device in the rig's device list.</param>
/// <param name="Declaration">What the device promises.</param>
public sealed record Channel(int Index, string Name, int Device, ChannelDeclaration Declaration);
