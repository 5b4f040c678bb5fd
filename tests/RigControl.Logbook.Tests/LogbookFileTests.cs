using System.Text.Json;
using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Logbook.Tests;

/// <summary>What is written can be read.</summary>
public sealed class LogbookFileTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly LogbookFile _logbook;

    public LogbookFileTests() => _logbook = LogbookFile.Open(_folder.Logbook);

    public void Dispose()
    {
        _logbook.Dispose();
        _folder.Dispose();
    }

    [Fact]
    public void A_fresh_logbook_has_no_runs() => Assert.Empty(_logbook.Runs());

    [Fact]
    public void The_header_comes_back_whole()
    {
        RunMaker.Record(_logbook, "a1", chunks: 0);
        Assert.Equal(JsonSerializer.Serialize(RunMaker.Header("a1"), Named), JsonSerializer.Serialize(_logbook.Header("a1"), Named));
        Assert.Equal(RunMaker.Header("a1").StartedAt, _logbook.Header("a1").StartedAt);
    }

    private static readonly JsonSerializerOptions Named = new() { NumberHandling = System.Text.Json.Serialization.JsonNumberHandling.AllowNamedFloatingPointLiterals };

    [Fact]
    public void Runs_are_listed_with_the_newest_last_whatever_the_order_in_which_they_were_begun()
    {
        foreach ((string run, int hour) in new[] { ("noon", 12), ("dusk", 20), ("dawn", 5) })
        {
            using IRunRecorder recorder = _logbook.Begin(RunMaker.Header(run) with { StartedAt = new DateTimeOffset(2031, 5, 4, hour, 0, 0, TimeSpan.Zero) });
            recorder.Finish(RunMaker.End(RunOutcome.SafeStop), []);
        }
        Assert.Equal(["dawn", "noon", "dusk"], _logbook.Runs().Select(run => run.Run));
        Assert.Equal("dusk", _logbook.Find("last").Run);
    }

    [Fact]
    public void The_end_of_a_run_can_be_asked_for_without_the_rest()
    {
        RunMaker.Record(_logbook, "a1", chunks: 5);
        ScanRecord last = default;
        foreach (ref readonly ScanRecord scan in _logbook.Scans("a1"))
            last = scan;
        Assert.Equal((last.Scan, last.Now, last.StateHash), (_logbook.LastScan("a1")!.Value.Scan, _logbook.LastScan("a1")!.Value.Now, _logbook.LastScan("a1")!.Value.StateHash));
        Sample[] all = [.. _logbook.SamplesByTime("a1")];
        foreach (TimeSpan since in new[] { TimeSpan.MinValue, all[0].At, all[all.Length / 2].At, all[^1].At, all[^1].At + TimeSpan.FromTicks(1) })
            Assert.Equal(all.Where(sample => sample.At >= since), _logbook.SamplesSince("a1", since));
    }

    [Fact]
    public void A_run_without_a_scan_has_no_last_one()
    {
        RunMaker.Record(_logbook, "a1", chunks: 0);
        Assert.Null(_logbook.LastScan("a1"));
    }

    [Fact]
    public void The_list_says_what_a_run_was()
    {
        RunMaker.Record(_logbook, "a1", chunks: 1, RunOutcome.SafeStop);
        RunSummary run = Assert.Single(_logbook.Runs());
        Assert.Equal(new RunSummary("a1", RunMaker.Header("a1").StartedAt.ToUniversalTime(), "enclosed-spin-up", "disc-180", "bench", false, RunOutcome.SafeStop), run);
    }

    [Theory]
    [InlineData(RunOutcome.Completed)]
    [InlineData(RunOutcome.Refused)]
    [InlineData(RunOutcome.SafeStop)]
    [InlineData(RunOutcome.Failed)]
    public void Every_end_comes_back(RunOutcome outcome)
    {
        RunMaker.Record(_logbook, "a1", chunks: 0, outcome);
        Assert.Equal(RunMaker.End(outcome), _logbook.End("a1"));
    }

    [Fact]
    public void Scans_come_back_in_order_across_blocks()
    {
        RunMaker.Record(_logbook, "a1", chunks: 30);
        Recorded.Check(_logbook, "a1", chunks: 30);
    }

    [Fact]
    public void Reading_one_run_shows_nothing_of_another()
    {
        RunMaker.Record(_logbook, "a1", chunks: 3);
        RunMaker.Record(_logbook, "b2", chunks: 5);
        Recorded.Check(_logbook, "a1", chunks: 3);
        Recorded.Check(_logbook, "b2", chunks: 5);
    }

    [Fact]
    public void Figures_come_back_with_the_reason_where_there_is_none()
    {
        RunMaker.Record(_logbook, "a1", chunks: 0);
        Assert.Equal(RunMaker.Figures, _logbook.Figures("a1"));
    }

    [Fact]
    public void A_figure_that_is_not_a_number_is_one_that_could_not_be_had()
    {
        using (IRunRecorder recorder = _logbook.Begin(RunMaker.Header("a1")))
            recorder.Finish(RunMaker.End(RunOutcome.Completed), [RunMaker.Figures[0] with { Value = double.NaN }]);
        Assert.Null(Assert.Single(_logbook.Figures("a1")).Value);
    }

    [Fact]
    public void A_chunk_of_the_largest_size_with_nothing_but_an_event_or_samples_comes_back()
    {
        using (IRunRecorder recorder = _logbook.Begin(RunMaker.Header("a1")))
        {
            RecordChunk chunk = new(RunMaker.Devices);
            chunk.Events.Add(RunMaker.EventOf(4));
            recorder.Append(chunk);
            chunk.Clear();
            recorder.Append(chunk);
            chunk.Devices[1].Add(RunMaker.SampleAt(9, 2));
            recorder.Append(chunk);
            recorder.Commit();
        }
        Assert.Equal("chunk 4", Assert.Single(_logbook.Events("a1")).Text);
        Assert.Equal(RunMaker.SampleAt(9, 2), Assert.Single(_logbook.Samples("a1", 1)));
    }

    [Fact]
    public void What_is_not_committed_is_not_seen_and_what_is_committed_is()
    {
        using IRunRecorder recorder = _logbook.Begin(RunMaker.Header("a1"));
        RecordChunk chunk = new(RunMaker.Devices);
        RunMaker.Fill(chunk, 0);
        recorder.Append(chunk);
        Recorded.Check(_logbook, "a1", chunks: 0);
        recorder.Commit();
        Recorded.Check(_logbook, "a1", chunks: 1);
    }

    [Fact]
    public void A_run_that_is_being_recorded_has_no_outcome_yet_and_one_let_go_without_an_end_has_broken_off()
    {
        using (IRunRecorder recorder = _logbook.Begin(RunMaker.Header("a1")))
            Assert.Null(_logbook.Find("a1").Outcome);
        Assert.Equal(RunOutcome.BrokenOff, _logbook.Find("a1").Outcome);
        Assert.Null(_logbook.End("a1"));
    }

    [Fact]
    public void A_run_let_go_without_an_end_keeps_what_was_appended()
    {
        using (IRunRecorder recorder = _logbook.Begin(RunMaker.Header("a1")))
        {
            RecordChunk chunk = new(RunMaker.Devices);
            RunMaker.Fill(chunk, 0);
            recorder.Append(chunk);
        }
        Recorded.Check(_logbook, "a1", chunks: 1);
    }

    [Fact]
    public void A_run_is_found_by_its_first_letters_and_a_whole_name_wins()
    {
        RunMaker.Record(_logbook, "abc", chunks: 0);
        RunMaker.Record(_logbook, "abcd", chunks: 0);
        Assert.Equal("abcd", _logbook.Find("abcd").Run);
        Assert.Equal("abc", _logbook.Find("abc").Run);
    }

    [Fact]
    public void Too_few_letters_are_answered_with_the_runs_that_they_could_mean()
    {
        RunMaker.Record(_logbook, "abc", chunks: 0);
        RunMaker.Record(_logbook, "abd", chunks: 0);
        UnknownRunException fault = Assert.Throws<UnknownRunException>(() => _logbook.Find("ab"));
        Assert.Equal("2 runs start with 'ab' (abc, abd): write more letters.", fault.Message);
    }

    [Theory]
    [InlineData("last", "no run yet")]
    [InlineData("zz", "`runs list`")]
    [InlineData("%", "`runs list`")]
    public void A_run_that_is_not_there_is_answered_with_what_to_do(string name, string remedy) =>
        Assert.Contains(remedy, Assert.Throws<UnknownRunException>(() => _logbook.Find(name)).Message, StringComparison.Ordinal);

    [Fact]
    public void Asking_for_the_content_of_an_unknown_run_is_no_empty_answer() =>
        Assert.Throws<UnknownRunException>(() => _logbook.Events("zz"));

    [Fact]
    public void A_second_run_of_the_same_name_is_refused_and_the_first_stays()
    {
        RunMaker.Record(_logbook, "a1", chunks: 2);
        Assert.Contains("a1", Assert.Throws<StorageException>(() => _logbook.Begin(RunMaker.Header("a1"))).Message, StringComparison.Ordinal);
        Recorded.Check(_logbook, "a1", chunks: 2);
    }

    [Theory]
    [InlineData("")]
    [InlineData("../x")]
    [InlineData("A")]
    public void A_name_that_is_no_name_is_refused(string name) => Assert.Throws<ArgumentException>(() => _logbook.Begin(RunMaker.Header(name)));

    [Fact]
    public async Task A_reader_sees_whole_chunks_only_while_the_run_is_written()
    {
        using IRunRecorder recorder = _logbook.Begin(RunMaker.Header("a1"));
        Task writing = Task.Run(() => RunMaker.Append(recorder, 0, 300), TestContext.Current.CancellationToken);
        int seen = 0, looks = 0;
        do
        {
            int now = Recorded.CountChunks(_logbook, "a1");
            Assert.InRange(now, seen, 300);
            seen = now;
            looks++;
        }
        while (!writing.IsCompleted);
        await writing;
        Assert.Equal(300, Recorded.CountChunks(_logbook, "a1"));
        Assert.True(looks > 1, "the reader never looked while the run was written");
    }

    [Fact]
    public async Task Two_rigs_may_record_into_one_logbook_at_once()
    {
        Task[] rigs = [.. new[] { "a1", "b2" }.Select(run => Task.Run(() =>
        {
            using LogbookFile own = LogbookFile.Open(_folder.Logbook);
            RunMaker.Record(own, run, chunks: 50);
        }, TestContext.Current.CancellationToken))];
        await Task.WhenAll(rigs);
        Recorded.Check(_logbook, "a1", chunks: 50);
        Recorded.Check(_logbook, "b2", chunks: 50);
    }

    [Fact]
    public void The_default_logbook_is_in_the_users_data_folder_unless_the_environment_says_otherwise()
    {
        Assert.EndsWith(Path.Combine("rigcontrol", "logbook.sqlite"), LogbookFile.DefaultPath(null), StringComparison.Ordinal);
        Assert.Equal("bench.sqlite", LogbookFile.DefaultPath("bench.sqlite"));
    }
}
