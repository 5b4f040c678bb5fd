using Microsoft.Win32.SafeHandles;

namespace RigControl.Board.Simulator.Board;

/// <summary>Owns a board inside the native library.</summary>
internal sealed class BoardHandle() : SafeHandleZeroOrMinusOneIsInvalid(ownsHandle: true)
{
    /// <inheritdoc/>
    protected override bool ReleaseHandle()
    {
        NativeBoard.Free(handle);
        return true;
    }
}
