using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Logbook;

/// <summary>The steps in which a run's samples are packed: part of how its blocks are read.</summary>
internal static class ReadingSteps
{
    /// <returns>Per channel index.</returns>
    public static ReadingStep[] Of(RunHeader header)
    {
        ReadingStep[] steps = new ReadingStep[header.Channels.Select(channel => channel.Index + 1).DefaultIfEmpty().Max()];
        foreach (Channel channel in header.Channels)
            steps[channel.Index] = new ReadingStep(channel.Declaration.Resolution);
        return steps;
    }
}
