namespace RigControl.EndToEnd.Tests;

/// <summary>
/// Tests at the wall clock's pace, most of them with the real firmware on a simulated processor: each alone, since a processor that has to
/// share its machine with other tests falls silent as no real one would.
/// </summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class RealFirmware
{
    public const string Name = "the real firmware";
}
