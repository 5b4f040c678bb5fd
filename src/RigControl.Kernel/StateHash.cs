using System.IO.Hashing;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using RigControl.Model.Records;

namespace RigControl.Kernel;

/// <summary>The hash that stands in every scan record: of all the state that this rig uses.</summary>
public static class StateHash
{
    private static readonly int WithoutInterlocks = Unsafe.SizeOf<KernelState>() - Unsafe.SizeOf<InterlockSlots>();

    public static ulong Of(Configuration configuration, ref KernelState state)
    {
        int length = WithoutInterlocks + configuration.InterlockCount * Unsafe.SizeOf<InterlockSlot>();
        ReadOnlySpan<byte> bytes = MemoryMarshal.AsBytes(MemoryMarshal.CreateReadOnlySpan(ref state, 1));
        return XxHash3.HashToUInt64(bytes[..length]);
    }
}
