using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests;

/// <summary>A full disk is told at once, and costs nothing that was committed.</summary>
public sealed class FullDiskTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_disk_that_fills_up_is_told_in_a_sentence_and_keeps_what_was_committed()
    {
        using SmallDisk disk = SmallDisk.Mount(megabytes: 2);
        string path = Path.Combine(disk.Path, "logbook.sqlite");
        int committed;
        using (LogbookFile logbook = LogbookFile.Open(path))
        using (IRunRecorder recorder = logbook.Begin(RunMaker.Header("a1")))
            committed = FillUntilFull(recorder);
        Assert.InRange(committed, 20, 100_000);
        Assert.Equal("ok", Recorded.Integrity(path));
        using LogbookFile again = LogbookFile.Open(path);
        Recorded.Check(again, "a1", committed);
        Assert.Equal(RunOutcome.BrokenOff, again.Find("a1").Outcome);
    }

    [Fact]
    public void A_disk_with_no_room_at_all_is_told_when_the_logbook_is_opened()
    {
        using SmallDisk disk = SmallDisk.Mount(megabytes: 1);
        File.WriteAllBytes(Path.Combine(disk.Path, "ballast"), new byte[1020 * 1024]);
        Assert.Contains("full", Assert.Throws<StorageException>(() => LogbookFile.Open(Path.Combine(disk.Path, "logbook.sqlite"))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void After_a_failure_nothing_more_is_appended_but_the_end_is_written_once_there_is_room()
    {
        using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        using RunRecorder recorder = (RunRecorder)logbook.Begin(RunMaker.Header("a1"));
        LimitPages(recorder, 40);
        int committed = FillUntilFull(recorder);
        LimitPages(recorder, 1_000_000);
        Assert.Throws<StorageException>(() => RunMaker.Append(recorder, committed, 1));
        recorder.Finish(RunMaker.End(RunOutcome.SafeStop), []);
        Recorded.Check(logbook, "a1", committed);
        Assert.Equal(RunOutcome.SafeStop, logbook.Find("a1").Outcome);
    }

    [Fact]
    public void Wherever_the_room_runs_out_the_file_is_sound_and_holds_whole_chunks()
    {
        for (int pages = 16; pages < 46; pages += 2)
        {
            string path = _folder.File($"{pages}.sqlite");
            int committed;
            using (LogbookFile logbook = LogbookFile.Open(path))
            using (RunRecorder recorder = (RunRecorder)logbook.Begin(RunMaker.Header("a1")))
            {
                LimitPages(recorder, pages);
                committed = FillUntilFull(recorder);
                Assert.Throws<StorageException>(() => FinishWithManyFigures(recorder));
            }
            Assert.Equal("ok", Recorded.Integrity(path));
            using LogbookFile again = LogbookFile.Open(path);
            Recorded.Check(again, "a1", committed);
            Assert.Empty(again.Figures("a1"));
        }
    }

    private static void FinishWithManyFigures(RunRecorder recorder) =>
        recorder.Finish(RunMaker.End(RunOutcome.SafeStop), [.. Enumerable.Repeat(RunMaker.Figures[0], 2000)]);

    private static void LimitPages(RunRecorder recorder, int pages) => recorder.Database.Number($"pragma max_page_count = {pages}");

    /// <returns>How many chunks were committed before the disk was full.</returns>
    private static int FillUntilFull(IRunRecorder recorder)
    {
        int committed = 0;
        StorageException fault = Assert.Throws<StorageException>(() =>
        {
            for (; committed < 100_000; committed++)
                RunMaker.Append(recorder, committed, 1);
        });
        Assert.Contains("is full: free some space", fault.Message, StringComparison.Ordinal);
        return committed;
    }
}
