using Microsoft.Data.Sqlite;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Logbook.Tests.Support;

/// <summary>Holds what a logbook gives back against what <see cref="RunMaker"/> put in.</summary>
internal static class Recorded
{
    /// <summary>The run consists of exactly so many chunks: scans, samples of every device and events.</summary>
    public static void Check(LogbookFile logbook, string run, int chunks)
    {
        Assert.Equal(chunks, CountChunks(logbook, run));
        long scans = (long)chunks * RunMaker.ScansPerChunk;
        Assert.Equal(Expected(scans, 0, 1), logbook.Samples(run, 0));
        Assert.Equal(Expected(scans, 2), logbook.Samples(run, 1));
        Assert.Equal(
            Enumerable.Range(0, chunks).Where(chunk => chunk % RunMaker.ChunksPerEvent == 0).Select(chunk => $"chunk {chunk}"),
            logbook.Events(run).Select(happened => happened.Text));
    }

    /// <summary>Reads the scans, sees that none is missing or wrong and that they make whole chunks, and counts those.</summary>
    public static int CountChunks(LogbookFile logbook, string run)
    {
        ScanRecord[] expected = new ScanRecord[1];
        long count = 0;
        foreach (ref readonly ScanRecord scan in logbook.Scans(run))
        {
            count++;
            ScanMaker.Idle(expected, count, interlocks: 1, devices: 0, samplesPerDevice: 0);
            Assert.Equal((count, expected[0].Now, expected[0].StateHash), (scan.Scan, scan.Now, scan.StateHash));
            Assert.Equal((count * 2, count), (scan.Watermarks[0], scan.Watermarks[1]));
        }
        Assert.Equal(0, count % RunMaker.ScansPerChunk);
        return (int)(count / RunMaker.ScansPerChunk);
    }

    private static IEnumerable<Sample> Expected(long scans, params int[] channels)
    {
        for (long scan = 1; scan <= scans; scan++)
        {
            foreach (int channel in channels)
                yield return RunMaker.SampleAt(scan, channel);
        }
    }

    /// <summary>SQLite's own word on the file: "ok", or what is wrong.</summary>
    public static string Integrity(string path)
    {
        using SqliteConnection connection = new($"Data Source={path};Pooling=False");
        connection.Open();
        using SqliteCommand command = new("pragma integrity_check", connection);
        return (string)command.ExecuteScalar()!;
    }
}
