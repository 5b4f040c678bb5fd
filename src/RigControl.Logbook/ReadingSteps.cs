using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Logbook;

/// <summary>The resolutions by which a run's samples are packed: part of how its blocks are read.</summary>
internal static class Resolutions
{
    /// <returns>Per channel index, in the channel's unit; 0 where none is declared.</returns>
    public static double[] Of(RunHeader header)
    {
        double[] resolutions = new double[header.Channels.Select(channel => channel.Index + 1).DefaultIfEmpty().Max()];
        foreach (Channel channel in header.Channels)
            resolutions[channel.Index] = channel.Declaration.Resolution;
        return resolutions;
    }
}
