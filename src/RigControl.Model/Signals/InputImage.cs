using System.Runtime.CompilerServices;

namespace RigControl.Model.Signals;

/// <summary>The input image of one scan: one entry per channel, at the channel's index.</summary>
[InlineArray(Capacity)]
public struct InputImage
{
    /// <summary>Most channels a rig may have: fixed places keep the image a value, and a board with every sensor needs thirty.</summary>
    public const int Capacity = 64;

    private ImageEntry _first;
}
