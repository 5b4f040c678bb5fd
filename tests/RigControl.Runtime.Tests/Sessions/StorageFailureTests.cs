using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Sessions;

/// <summary>What cannot be recorded is not run: whichever write fails, once or for good.</summary>
public class StorageFailureTests
{
    [Theory]
    [InlineData(1, false)]
    [InlineData(1, true)]
    [InlineData(2, false)]
    [InlineData(3, true)]
    [InlineData(5, false)]
    public void A_failed_append_stops_the_rig_and_says_so(int n, bool lasting) =>
        Stopped(new MemoryRecorder { OnAppend = i => FailAt(n, lasting, i) });

    [Theory]
    [InlineData(1, false)]
    [InlineData(1, true)]
    [InlineData(2, true)]
    [InlineData(3, false)]
    public void A_failed_commit_stops_the_rig_and_says_so(int n, bool lasting) =>
        Stopped(new MemoryRecorder { OnCommit = i => FailAt(n, lasting, i) });

    /// <summary>From the first on, until a whole run no longer comes to the n-th.</summary>
    [Theory]
    [InlineData(true, false)]
    [InlineData(true, true)]
    [InlineData(false, false)]
    [InlineData(false, true)]
    public void Whichever_write_of_a_whole_run_fails_the_rig_is_stopped_and_what_was_safe_stays(bool append, bool lasting)
    {
        for (int n = 1; ; n++)
        {
            int reached = 0;
            Action<int> fail = i =>
            {
                reached = i;
                FailAt(n, lasting, i);
            };
            MemoryRecorder record = append ? new() { OnAppend = fail } : new() { OnCommit = fail };
            ToyDevice heard = new("x");
            using AssembledRig rig = new TestRig { Devices = { ["heard"] = _ => heard } }.Assemble();
            RunResult result = Run.Of(rig, record);
            Assert.Equal((1000.0, false), (heard.Told.Pulse, heard.Told.Power));
            if (reached < n)
            {
                Assert.Equal((RunOutcome.Completed, null), (result.Outcome, result.Storage));
                Assert.True(n > 2, "no run comes to a second write");
                return;
            }

            Assert.NotEqual(RunOutcome.Completed, result.Outcome);
            Assert.Equal("the disk is full; free some space", result.Note);
            // After the failure nothing is written any more: the record has no hole, and what was safe is all there is or more.
            Assert.Equal(Enumerable.Range(1, record.Scans.Count).Select(i => (long)i), record.Scans.Select(s => s.Scan));
            Assert.True(record.Safe.Scans <= record.Scans.Count && record.Safe.Events <= record.Events.Count);
            Assert.Equal(n, reached);
        }
    }

    [Fact]
    public void A_record_that_fails_before_anybody_acts_ends_the_session()
    {
        using AssembledRig rig = new TestRig().Assemble();
        RunResult result = Run.Of(rig, new MemoryRecorder { OnAppend = n => FailAt(1, false, n) }, new LeavingOperator(int.MaxValue));

        Assert.Equal((RunOutcome.Failed, "the disk is full; free some space"), (result.Outcome, result.Note));
    }

    [Fact]
    public void A_recorder_that_fails_in_a_way_of_its_own_is_a_lost_record_too()
    {
        RunResult result = Stopped(new MemoryRecorder { OnAppend = i => throw new DivideByZeroException("oops") });

        Assert.StartsWith("the record cannot be kept: ", result.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void A_slow_recorder_makes_a_virtual_clock_wait_and_loses_nothing()
    {
        using AssembledRig rig = new TestRig { Repeat = 3 }.Assemble();
        using SemaphoreSlim permits = new(0);
        // Every append waits for a permit, and permits come only once the scan has gone as far as the queue lets it.
        MemoryRecorder record = new() { OnAppend = _ => permits.Wait() };
        using RunSession session = new(rig, record, new ScriptedOperator(rig.Documents.Procedure), Pace.Times(1000), [], null);
        RunResult? result = null;
        Thread run = new(() => result = session.Run());
        run.Start();
        while (run.IsAlive)
        {
            permits.Release();
            Thread.Yield();
        }

        Assert.Equal(RunOutcome.Completed, result!.Outcome);
        Assert.Equal(Enumerable.Range(1, record.Scans.Count).Select(n => (long)n), record.Scans.Select(s => s.Scan));
        Assert.Equal(record.Samples[0].Count, record.Scans[^1].Watermarks[0]);
        Assert.Equal(Run.Of(new TestRig { Repeat = 3 }).Record.Fingerprint, record.Fingerprint);
    }

    private static void FailAt(int n, bool lasting, int i)
    {
        if (i == n || (lasting && i > n))
            throw new StorageException("the disk is full; free some space");
    }

    // With so many repeats the recorder always falls behind the failure before the procedure could be done.
    private static RunResult Stopped(MemoryRecorder record)
    {
        ToyDevice heard = new("x");
        using AssembledRig rig = new TestRig { Repeat = 1000, Devices = { ["heard"] = _ => heard } }.Assemble();
        RunResult result = Run.Of(rig, record);

        Assert.Contains(result.Outcome, new[] { RunOutcome.SafeStop, RunOutcome.Failed });
        Assert.NotNull(result.Storage);
        Assert.Equal(result.Storage.Message, result.Note);
        Assert.Equal((1000.0, false), (heard.Told.Pulse, heard.Told.Power));
        return result;
    }
}
