namespace RigControl.Runtime.Rigs;

/// <summary>Why a rig cannot be put together.</summary>
/// <param name="reasons">Each a sentence to act on.</param>
/// <param name="isDevice">Whether a device failed, rather than what is written in the files.</param>
public sealed class AssemblyException(IReadOnlyList<string> reasons, bool isDevice) : Exception(string.Join("; ", reasons))
{
    public IReadOnlyList<string> Reasons { get; } = reasons;

    public bool IsDevice { get; } = isDevice;
}
