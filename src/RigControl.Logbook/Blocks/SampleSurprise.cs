namespace RigControl.Logbook.Blocks;

/// <summary>What of a sample was not as expected. None of them marks the end of a block's shape.</summary>
[Flags]
internal enum SampleSurprise : uint
{
    None = 0,
    Channel = 1,
    Time = 2,
    Quality = 4,
    All = 7,
}
