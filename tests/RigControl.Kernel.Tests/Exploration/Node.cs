using System.IO.Hashing;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace RigControl.Kernel.Tests.Exploration;

/// <summary>A world at the end of a scan: the kernel, and the board's end of the line where there is one.</summary>
internal struct Node
{
    private static readonly int WithoutInterlocks = Unsafe.SizeOf<KernelState>() - Unsafe.SizeOf<InterlockSlots>();

    public KernelState Kernel;
    public Wire Wire;

    /// <summary>How many bytes of the kernel's state a world uses.</summary>
    public static int Kept(int interlocks) => WithoutInterlocks + interlocks * Unsafe.SizeOf<InterlockSlot>();

    /// <summary>The node as bytes, without the interlocks that the world does not have.</summary>
    public readonly byte[] Pack(int kept)
    {
        byte[] bytes = new byte[kept + Unsafe.SizeOf<Wire>()];
        MemoryMarshal.AsBytes(new ReadOnlySpan<KernelState>(in Kernel))[..kept].CopyTo(bytes);
        MemoryMarshal.AsBytes(new ReadOnlySpan<Wire>(in Wire)).CopyTo(bytes.AsSpan(kept));
        return bytes;
    }

    /// <summary>Becomes the node of these bytes.</summary>
    public void Unpack(ReadOnlySpan<byte> bytes)
    {
        int kept = bytes.Length - Unsafe.SizeOf<Wire>();
        bytes[..kept].CopyTo(MemoryMarshal.AsBytes(new Span<KernelState>(ref Kernel)));
        bytes[kept..].CopyTo(MemoryMarshal.AsBytes(new Span<Wire>(ref Wire)));
    }

    /// <summary>What tells it from others.</summary>
    public readonly UInt128 Key(int kept)
    {
        ReadOnlySpan<byte> wire = MemoryMarshal.AsBytes(new ReadOnlySpan<Wire>(in Wire));
        return XxHash128.HashToUInt128(MemoryMarshal.AsBytes(new ReadOnlySpan<KernelState>(in Kernel))[..kept], (long)XxHash3.HashToUInt64(wire));
    }
}
