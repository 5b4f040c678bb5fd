using System.Globalization;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Runtime.Plugins;
using RigControl.Runtime.Recording;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;

namespace RigControl.Benchmarks;

/// <summary>
/// From the moment a device reads a sample to the moment it is told the outputs of the first scan that knew it, on the real clock
/// with a thread for the device, at 200 Hz and at 1 kHz.
/// </summary>
internal static class Reaction
{
    public static IEnumerable<Row> Measure(double seconds)
    {
        foreach (int rate in new[] { 200, 1000 })
        {
            Spread taken = new(Times(rate, seconds));
            double allowed = 1000.0 / rate + 1;
            yield return new Row(
                $"sample to output command, scan at {rate} Hz, {taken.Count} samples", taken.Text("ms"),
                string.Create(CultureInfo.InvariantCulture, $"one period and 1 ms: {allowed:0} ms"), string.Create(CultureInfo.InvariantCulture, $"99.9 %: {taken.At(0.999) / allowed:0.00}"));
        }
    }

    private static double[] Times(int rate, double seconds)
    {
        RigDocuments documents = SampleRig.Documents(null, rate);
        Probe? probe = null;
        ProbePlugin plugin = new(context => probe = new Probe(context, (int)(seconds * rate)));
        PluginCatalog catalog = PluginCatalog.Of("benchmark", [plugin, .. SampleRig.Catalog.Devices.Values], [.. SampleRig.Catalog.Interlocks.Values]);
        // First of all devices by its id, so that its watermark is the first.
        DeviceDefinition definition = new("a-probe", plugin.Kind, new Dictionary<string, object>(), new Dictionary<string, string>());
        RigDefinition with = documents.Rig with { Devices = [definition, .. documents.Rig.Devices] };
        using AssembledRig rig = new RigAssembler(catalog, TimeProvider.System).Assemble(documents with { Rig = with }, 1);
        ChunkQueue queue = new(RecorderPump.Chunks, rig.Devices.Count);
        RunWatch watch = new(null, (in ScanRecord record) => probe!.Knows(record.Watermarks[0]));
        ScanCycle cycle = new(rig, new CommandInbox(), watch, queue, TimeSpan.Zero);
        new RealTime(rig, rig.Clock).Run(cycle, new LostDevices(rig.Devices, cycle), () =>
        {
            while (queue.Take(TimeSpan.Zero) is { } chunk)
                queue.Return(chunk);
            return rig.Clock.Now.TotalSeconds > seconds + 1;
        });
        return probe!.Taken;
    }
}
