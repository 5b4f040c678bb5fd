using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Kernel;

/// <summary>Everything that enters one scan.</summary>
public readonly ref struct ScanInput
{
    private readonly ref readonly InputImage _image;

    /// <param name="now">Time of the scan, since the session's clock started; must rise from scan to scan.</param>
    /// <param name="image">The folded inputs.</param>
    /// <param name="commands">Operator's acts in order of arrival, at most <see cref="Capacity.Commands"/>.</param>
    public ScanInput(TimeSpan now, in InputImage image, ReadOnlySpan<Command> commands)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(commands.Length, Capacity.Commands);
        Now = now;
        _image = ref image;
        Commands = commands;
    }

    public TimeSpan Now { get; }

    public ref readonly InputImage Image => ref _image;

    public ReadOnlySpan<Command> Commands { get; }
}
