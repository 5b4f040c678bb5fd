namespace RigControl.Devices.RigBoard.Protocol;

/// <summary>Order of line numbers, which wrap at 65536.</summary>
internal static class Numbering
{
    /// <summary>Whether a line was written after another: by 1 to 32767 lines.</summary>
    public static bool Follows(ushort number, ushort before) => (ushort)(number - before) is >= 1 and <= 32767;
}
