namespace RigControl.EndToEnd.Tests.Killing;

/// <summary>A whole run that is killed keeps every event that it had told and all but the last moment of its samples.</summary>
public sealed class KilledRunTests : IDisposable
{
    private const int Kills = 4;

    private readonly Tool _tool = new();

    public void Dispose() => _tool.Dispose();

    /// <summary>How many milliseconds the last moment is depends on the machine, and is measured by <c>--kill</c>.</summary>
    [Fact]
    public void Killing_a_run_at_any_moment_leaves_a_sound_file_every_told_event_and_the_samples_as_they_were_said()
    {
        Random random = new(29);
        string plugins = _tool.PluginsWith("RigControl.Misbehaving");
        List<KilledRun> killed = [];
        while (killed.Count < Kills)
        {
            if (KilledRuns.Once(_tool, plugins, random) is { } run)
                killed.Add(run);
        }

        Assert.All(killed, k =>
        {
            Assert.Empty(k.Damage);
            Assert.True(k.IsPrefix, "a sample that is kept is not the one that was said");
            Assert.Empty(k.Lost);
        });
        Assert.Contains(killed, k => k.Kept.Count > 0);
        Assert.Contains(killed, k => k.Told.Count > 0);
    }

    /// <summary>The campaign can find what it looks for: an event that was told and is not there, and a sample that is another.</summary>
    [Fact]
    public void What_was_told_and_is_not_kept_or_is_kept_otherwise_is_found()
    {
        Model.Signals.Sample Kept(int ms, double value) => new(0, Model.Signals.Quality.Good, TimeSpan.FromMilliseconds(ms), value);
        KilledRun run = new([(TimeSpan.FromMilliseconds(2), 0), (TimeSpan.FromMilliseconds(4), 1), (TimeSpan.FromMilliseconds(300), 2)], [new ToldEvent("0.003", "the lid opened")], [Kept(2, 0), Kept(4, 1)], [], []);
        Assert.Equal(296, run.Missing!.Value.TotalMilliseconds);
        Assert.True(run.IsPrefix);
        Assert.Equal("the lid opened", Assert.Single(run.Lost).Event.Text);
        Assert.False((run with { Kept = [Kept(2, 0), Kept(4, 7)] }).IsPrefix);
        Assert.False((run with { Kept = [Kept(2, 0), Kept(300, 2)] }).IsPrefix);
        Assert.Null((run with { Kept = [] }).Missing);
        Assert.Equal(290, (run with { Kept = [], FirstScan = TimeSpan.FromMilliseconds(10) }).Missing!.Value.TotalMilliseconds);
    }
}
