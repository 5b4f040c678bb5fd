using System.Diagnostics;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Benchmarks;

/// <summary>
/// Sixteen channels of a 12-bit sensor at 1 kHz for a minute, with a slow drift and noise of half a step: into the logbook, and
/// as bare doubles into a file for comparison.
/// </summary>
internal static class MinuteRecording
{
    private const int Channels = 16;
    private const int Seconds = 60;
    private const int Chunk = Channels * 50;
    private const double Step = 60.0 / 4096;

    public static IEnumerable<Row> Measure()
    {
        Sample[] samples = Samples();
        Once(samples);
        (double kept, double bytes, double bare) = (0, 0, 0);
        for (int i = 0; i < 3; i++)
        {
            (double rate, bytes) = Once(samples);
            kept = Math.Max(kept, rate);
            bare = Math.Max(bare, Bare(samples));
        }

        yield return new Row($"recording 60 s of {Channels} channels at 1 kHz, commit every 50 ms", $"{kept / 1e6:0.0} million samples a second, {bytes / samples.Length:0.00} bytes a sample, {bytes / 1048576:0.00} MiB",
            $"bare doubles with their times to a file: {bare / 1e6:0.0} million a second, 16 bytes a sample", $"{kept / bare:0.00}");
    }

    private static (double Rate, double Bytes) Once(Sample[] samples)
    {
        using Scratch scratch = new();
        using (LogbookFile logbook = LogbookFile.Open(scratch.File))
        {
            using IRunRecorder recorder = logbook.Begin(Header());
            RecordChunk chunk = new(1);
            long began = Stopwatch.GetTimestamp();
            for (int i = 0; i < samples.Length; i += Chunk)
            {
                chunk.Clear();
                chunk.Devices[0].Add(samples.AsSpan(i, Chunk));
                recorder.Append(chunk);
                recorder.Commit();
            }

            recorder.Finish(new RunEnd(RunOutcome.Completed, DateTimeOffset.UnixEpoch, null), []);
            double rate = samples.Length / Stopwatch.GetElapsedTime(began).TotalSeconds;
            logbook.Shrink();
            return (rate, new FileInfo(scratch.File).Length);
        }
    }

    private static double Bare(Sample[] samples)
    {
        using Scratch scratch = new();
        using BinaryWriter writer = new(new FileStream(scratch.File, FileMode.Create));
        long began = Stopwatch.GetTimestamp();
        foreach (Sample sample in samples)
        {
            writer.Write(sample.At.Ticks);
            writer.Write(sample.Value);
        }

        writer.Flush();
        return samples.Length / Stopwatch.GetElapsedTime(began).TotalSeconds;
    }

    private static Sample[] Samples()
    {
        Random random = new(5);
        Sample[] samples = new Sample[Channels * 1000 * Seconds];
        for (int i = 0; i < samples.Length; i++)
        {
            double noise = (random.NextDouble() + random.NextDouble() + random.NextDouble() - 1.5) * 1.0;
            double count = Math.Round(2048 + 1500 * Math.Sin(i / Channels * 0.002 + i % Channels) + noise);
            samples[i] = new Sample((ushort)(i % Channels), Quality.Good, TimeSpan.FromMilliseconds(i / Channels), count * Step);
        }

        return samples;
    }

    private static RunHeader Header() => ManyRuns.Header("bench", DateTimeOffset.UnixEpoch) with
    {
        Channels = [.. Enumerable.Range(0, Channels).Select(i => new Channel(i, $"channel-{i}", 0, new ChannelDeclaration
        {
            Name = $"channel-{i}", Unit = "V", Minimum = 0, Maximum = 60, Resolution = Step, Period = TimeSpan.FromMilliseconds(1), MaximumAge = TimeSpan.FromMilliseconds(5),
        }))],
    };
}

/// <summary>A file of the measurement's own, in memory where there is a file system for that: the disk is not what is measured.</summary>
internal sealed class Scratch : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.Exists("/dev/shm")
        ? Directory.CreateDirectory($"/dev/shm/rigcontrol-{Guid.NewGuid():N}")
        : Directory.CreateTempSubdirectory("rigcontrol-");

    public string File => Path.Combine(_folder.FullName, "logbook.sqlite");

    public void Dispose() => _folder.Delete(recursive: true);
}
