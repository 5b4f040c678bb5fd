using RigControl.Analysis.Figures;
using RigControl.Analysis.Fitting;
using RigControl.Cli.Loading;
using RigControl.Cli.Runs;
using RigControl.Cli.Signals;
using RigControl.Model.Signals;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Rigs;

namespace RigControl.Cli.Calibrating;

/// <summary>Takes a channel's mean reading off a rig with all outputs off.</summary>
internal sealed class ReadingTaker(PluginCatalog catalog, string? rigFile, string? articleFile)
{
    // Long enough for the slowest usual sensor to have spoken several times, short enough to wait for at every point.
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(2);

    private readonly RigDocuments _documents = new DocumentLoader(catalog).ForLooking(rigFile ?? DocumentLoader.SimulatedRig, RunOnce.ArticleFile(rigFile, articleFile));

    public string Rig => _documents.Rig.Name;

    /// <summary>Mean over two seconds, its standard uncertainty and the unit.</summary>
    public (double Mean, double Uncertainty, string Unit) Take(string channel)
    {
        using AssembledRig rig = RunOnce.Assemble(_documents, catalog, seed: 1);
        Channel asked = rig.Channels.FirstOrDefault(c => c.Name == channel)
            ?? throw new CliException(ExitCode.BadInput, $"the rig {Rig} has no channel {channel}; write one of {string.Join(", ", rig.Channels.Select(c => c.Name))}");
        using Looking looking = new(rig, Look);
        List<double> readings = [];
        looking.Run(TimeSpan.FromMilliseconds(50), seen =>
        {
            if (seen.Channels.First(c => c.Name == channel).Value is { } value)
                readings.Add(value);
        });
        if (readings.Count < 5)
            throw new CliException(ExitCode.DeviceOrStorage, $"{channel} gave no readings; look at it with the command signals");
        double[] values = [.. readings];
        double scatter = Summary.Deviation(values) / Math.Sqrt(values.Length);
        return (Summary.Mean(values), Measured.Combine(scatter, Measured.OfResolution(asked.Declaration.Resolution)), asked.Declaration.Unit);
    }
}
