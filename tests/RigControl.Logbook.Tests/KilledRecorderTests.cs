using System.Diagnostics;
using System.Globalization;
using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests;

/// <summary>A recorder that is killed loses nothing of what it had called committed.</summary>
public class KilledRecorderTests
{
    private const int Kills = 20;

    [Fact]
    public void Killing_the_recorder_at_any_moment_loses_nothing_committed_and_leaves_a_sound_file_and_a_run_broken_off()
    {
        using TemporaryFolder folder = new();
        Random random = new(11);
        for (int kill = 0; kill < Kills; kill++)
        {
            string run = $"k{kill}";
            int committed = RecordAndKill(folder.Logbook, run, random);
            Assert.Equal("ok", Recorded.Integrity(folder.Logbook));
            using LogbookFile logbook = LogbookFile.Open(folder.Logbook);
            int found = Recorded.CountChunks(logbook, run);
            // The one being committed when the process died may have made it.
            Assert.InRange(found, committed, committed + 1);
            Recorded.Check(logbook, run, found);
            Assert.Equal(RunOutcome.BrokenOff, logbook.Find(run).Outcome);
        }
    }

    [Fact]
    public void A_run_recorded_by_another_living_process_has_no_outcome_until_it_dies_and_its_mark_goes_with_the_next_run()
    {
        using TemporaryFolder folder = new();
        using Process writer = Start(folder.Logbook, "k1");
        Assert.Equal("0", writer.StandardOutput.ReadLine());
        using LogbookFile logbook = LogbookFile.Open(folder.Logbook);
        Assert.Null(logbook.Find("k1").Outcome);
        writer.Kill();
        writer.WaitForExit();
        Assert.Equal(RunOutcome.BrokenOff, logbook.Find("k1").Outcome);
        Assert.True(File.Exists(folder.Logbook + "-run-k1"));
        RunMaker.Record(logbook, "next", chunks: 1);
        Assert.False(File.Exists(folder.Logbook + "-run-k1"));
        Assert.Equal(RunOutcome.BrokenOff, logbook.Find("k1").Outcome);
    }

    /// <returns>How many chunks the recorder said were committed.</returns>
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

    private static Process Start(string logbook, string run) => Process.Start(
        new ProcessStartInfo("dotnet", ["exec", typeof(Program).Assembly.Location, EndlessWriter.Option, logbook, run]) { RedirectStandardOutput = true })!;
}
