using System.Diagnostics;
using System.Globalization;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests.Support;

/// <summary>Kills recorders at random moments and holds what is left against what they had said was committed.</summary>
internal static class KillCampaign
{
    public const string Option = "--kill";

    /// <summary>Record time of a chunk, ms: what a kill may cost at most, since each is committed.</summary>
    public const int ChunkMilliseconds = RunMaker.ScansPerChunk;

    /// <summary>Kills so many recorders and prints what was found.</summary>
    /// <returns>0 where nothing was lost.</returns>
    public static int Run(int kills, int seed)
    {
        using TemporaryFolder folder = new();
        Random random = new(seed);
        (int chunks, int torn) = (0, 0);
        for (int kill = 0; kill < kills; kill++)
        {
            (int committed, int found) = Once(folder.Logbook, $"k{kill}", random);
            chunks += committed;
            torn += found > committed ? 1 : 0;
        }

        using LogbookFile logbook = LogbookFile.Open(folder.Logbook);
        Soundness all = logbook.Verify();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{kills} recorders killed from seed {seed}: {chunks} chunks acknowledged, none lost; {torn} times the one being written had made it as well; at most {ChunkMilliseconds} ms of samples were not yet acknowledged; every event is there; {all.Runs} runs, {all.Scans} scans, {all.Samples} samples read back, {all.Damage.Count} damages"));
        return all.IsSound ? 0 : 1;
    }

    /// <summary>Records, kills and checks one run.</summary>
    /// <returns>Chunks that the recorder said were committed, and those found.</returns>
    public static (int Committed, int Found) Once(string path, string run, Random random)
    {
        int committed = RecordAndKill(path, run, random);
        Assert.Equal("ok", Recorded.Integrity(path));
        using LogbookFile logbook = LogbookFile.Open(path);
        int found = Recorded.CountChunks(logbook, run);
        // The one being committed when the process died may have made it.
        Assert.InRange(found, committed, committed + 1);
        Recorded.Check(logbook, run, found);
        Assert.Equal(RunOutcome.BrokenOff, logbook.Find(run).Outcome);
        return (committed, found);
    }

    private static int RecordAndKill(string logbook, string run, Random random)
    {
        using Process writer = Start(logbook, run);
        int committed = 0;
        for (int wait = random.Next(1, 60); committed < wait; committed++)
            Assert.Equal(committed.ToString(CultureInfo.InvariantCulture), writer.StandardOutput.ReadLine());
        // Somewhere within the next chunk.
        Thread.SpinWait(random.Next(20_000));
        writer.Kill();
        while (writer.StandardOutput.ReadLine() is { Length: > 0 })
            committed++;
        writer.WaitForExit();
        return committed;
    }

    public static Process Start(string logbook, string run) => Process.Start(
        new ProcessStartInfo("dotnet", ["exec", typeof(Program).Assembly.Location, EndlessWriter.Option, logbook, run]) { RedirectStandardOutput = true })!;
}
