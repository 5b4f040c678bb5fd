using System.Diagnostics;
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
            KillCampaign.Once(folder.Logbook, $"k{kill}", random);
    }

    [Fact]
    public void A_run_recorded_by_another_living_process_has_no_outcome_until_it_dies_and_its_mark_goes_with_the_next_run()
    {
        using TemporaryFolder folder = new();
        using Process writer = KillCampaign.Start(folder.Logbook, "k1");
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
}
