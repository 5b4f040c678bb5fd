using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Runtime.Rigs;

namespace RigControl.Benchmarks;

/// <summary>
/// Samples into the logbook, as fast as they go: every channel of the simulated rig with a noisy reading that wanders, handed over
/// in chunks as the host does and committed as a real run's. Against the same samples written raw to a file beside it.
/// </summary>
internal static class Recording
{
    private const int Chunks = 400;
    private const int PerChannel = 256;

    public static IEnumerable<Row> Measure()
    {
        (double rate, double size, double raw) = (0, 0, 0);
        for (int i = 0; i < 3; i++)
        {
            (double one, double bytes) = Once();
            (rate, size) = one > rate ? (one, bytes) : (rate, size);
            raw = Math.Max(raw, Raw());
        }

        yield return new Row(
            "samples into the logbook, flushed as a real run's", string.Create(CultureInfo.InvariantCulture, $"{rate / 1e6:0.00} million a second, {size:0.00} bytes a sample"),
            string.Create(CultureInfo.InvariantCulture, $"written raw and flushed once: {raw / 1e6:0.00} million a second, {Marshal.SizeOf<Sample>()} bytes a sample"),
            string.Create(CultureInfo.InvariantCulture, $"{rate / raw:0.00}"));
    }

    private static (double Rate, double Bytes) Once()
    {
        string folder = Directory.CreateTempSubdirectory("rigcontrol-benchmark-").FullName;
        try
        {
            using AssembledRig rig = SampleRig.Assemble(SampleRig.Documents());
            RecordChunk[] chunks = Make(rig);
            string file = Path.Combine(folder, "logbook.sqlite");
            long began = 0;
            double seconds;
            using (LogbookFile logbook = LogbookFile.Open(file))
            {
                using IRunRecorder recorder = logbook.Begin(SampleRig.Header(rig) with { Simulated = false });
                began = Stopwatch.GetTimestamp();
                foreach (RecordChunk chunk in chunks)
                {
                    recorder.Append(chunk);
                    recorder.Commit();
                }

                seconds = Stopwatch.GetElapsedTime(began).TotalSeconds;
                recorder.Finish(new RunEnd(RunOutcome.Completed, DateTimeOffset.UtcNow, null), []);
            }

            double samples = chunks.Sum(c => c.Devices.Sum(d => (double)d.Count));
            return (samples / seconds, new FileInfo(file).Length / samples);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static double Raw()
    {
        string file = Path.GetTempFileName();
        using AssembledRig rig = SampleRig.Assemble(SampleRig.Documents());
        RecordChunk[] chunks = Make(rig);
        long began = Stopwatch.GetTimestamp();
        long samples = 0;
        using (FileStream stream = new(file, FileMode.Create))
        {
            foreach (SampleBuffer device in chunks.SelectMany(c => c.Devices))
            {
                stream.Write(MemoryMarshal.AsBytes(device.Samples));
                samples += device.Count;
            }

            stream.Flush(flushToDisk: true);
        }

        double seconds = Stopwatch.GetElapsedTime(began).TotalSeconds;
        File.Delete(file);
        return samples / seconds;
    }

    // A random walk of a few steps of the channel's resolution, at 1 kHz: what a sensor with some noise gives.
    private static RecordChunk[] Make(AssembledRig rig)
    {
        Random random = new(1);
        int[] steps = new int[rig.Channels.Count];
        return [.. Enumerable.Range(0, Chunks).Select(c => Chunk(rig, c, random, steps))];
    }

    private static RecordChunk Chunk(AssembledRig rig, int number, Random random, int[] steps)
    {
        RecordChunk chunk = new(rig.DeviceIdentities.Count);
        for (int n = 0; n < PerChannel; n++)
        {
            TimeSpan at = TimeSpan.FromMilliseconds(number * PerChannel + n);
            foreach (Channel channel in rig.Channels)
            {
                steps[channel.Index] += random.Next(-2, 3);
                double value = Math.Clamp(steps[channel.Index] * channel.Declaration.Resolution, channel.Declaration.Minimum, channel.Declaration.Maximum);
                chunk.Devices[channel.Device].Add(new Sample((ushort)channel.Index, Quality.Good, at, value));
            }
        }

        // One scan, so that the recorder knows the time and flushes once a second of it.
        chunk.Scans[chunk.ScanCount++] = new ScanRecord { Scan = number + 1, Now = TimeSpan.FromMilliseconds((number + 1) * PerChannel) };
        return chunk;
    }
}
