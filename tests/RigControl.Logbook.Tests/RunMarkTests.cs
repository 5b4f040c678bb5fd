using RigControl.Logbook.Tests.Support;

namespace RigControl.Logbook.Tests;

/// <summary>Whether somebody is recording.</summary>
public sealed class RunMarkTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_run_that_nobody_records_is_not_held() => Assert.False(RunMark.IsHeld(_folder.Logbook, "a1"));

    [Fact]
    public void A_run_in_a_folder_that_is_gone_is_not_held() => Assert.False(RunMark.IsHeld(_folder.File("gone/logbook.sqlite"), "a1"));

    [Fact]
    public void A_run_is_held_until_its_recorder_lets_go_and_leaves_nothing_behind()
    {
        using (RunMark.Hold(_folder.Logbook, "a1"))
            Assert.True(RunMark.IsHeld(_folder.Logbook, "a1"));
        Assert.False(RunMark.IsHeld(_folder.Logbook, "a1"));
        Assert.Empty(Directory.GetFiles(_folder.Path));
    }

    [Fact]
    public void One_run_held_says_nothing_of_another()
    {
        using RunMark mark = RunMark.Hold(_folder.Logbook, "a1");
        Assert.False(RunMark.IsHeld(_folder.Logbook, "a12"));
    }

    [Fact]
    public void A_run_cannot_be_held_twice()
    {
        using RunMark mark = RunMark.Hold(_folder.Logbook, "a1");
        Assert.Throws<IOException>(() => RunMark.Hold(_folder.Logbook, "a1"));
        Assert.True(RunMark.IsHeld(_folder.Logbook, "a1"));
    }

    [Fact]
    public void Somebody_who_looks_is_not_taken_for_the_recorder()
    {
        File.WriteAllBytes(_folder.Logbook + "-run-a1", []);
        using FileStream look = new(_folder.Logbook + "-run-a1", FileMode.Open, FileAccess.Read, FileShare.Read);
        Assert.False(RunMark.IsHeld(_folder.Logbook, "a1"));
    }

    [Fact]
    public void Sweeping_takes_what_a_dead_recorder_left_and_nothing_that_a_living_one_holds()
    {
        File.WriteAllBytes(_folder.Logbook + "-run-dead", []);
        using RunMark mark = RunMark.Hold(_folder.Logbook, "alive");
        RunMark.Sweep(_folder.Logbook, "dead");
        RunMark.Sweep(_folder.Logbook, "alive");
        Assert.Equal([_folder.Logbook + "-run-alive"], Directory.GetFiles(_folder.Path));
        Assert.True(RunMark.IsHeld(_folder.Logbook, "alive"));
    }
}
