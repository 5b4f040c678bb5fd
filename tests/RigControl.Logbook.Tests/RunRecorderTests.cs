using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests;

/// <summary>What a pulled plug may cost: a commit that waits for the disk is "full" to the database, the others are not.</summary>
public sealed class RunRecorderTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly LogbookFile _logbook;
    private readonly RecordChunk _chunk = new(RunMaker.Devices);

    public RunRecorderTests() => _logbook = LogbookFile.Open(_folder.Logbook);

    public void Dispose()
    {
        _logbook.Dispose();
        _folder.Dispose();
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_commit_that_holds_an_event_waits_for_the_disk(bool simulated)
    {
        using RunRecorder recorder = Begin(simulated);
        Append(recorder, chunk: 1);
        Append(recorder, chunk: RunMaker.ChunksPerEvent);
        Assert.True(WaitsForTheDisk(recorder));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_commit_without_an_event_does_not_wait(bool simulated)
    {
        using RunRecorder recorder = Begin(simulated);
        Append(recorder, chunk: RunMaker.ChunksPerEvent);
        recorder.Commit();
        Append(recorder, chunk: RunMaker.ChunksPerEvent + 1);
        Assert.False(WaitsForTheDisk(recorder));
    }

    [Fact]
    public void A_real_run_waits_for_the_disk_once_a_second_even_without_events_and_a_simulated_one_does_not()
    {
        Assert.InRange(WaitsWithoutEvents(simulated: false, seconds: 10), 9, 10);
        Assert.Equal(0, WaitsWithoutEvents(simulated: true, seconds: 10));
    }

    [Fact]
    public void Nothing_is_appended_to_a_run_that_has_ended()
    {
        using RunRecorder recorder = Begin(simulated: true);
        recorder.Finish(RunMaker.End(RunOutcome.Completed), []);
        Assert.Throws<ObjectDisposedException>(() => Append(recorder, chunk: 0));
        Assert.Throws<ObjectDisposedException>(() => recorder.Finish(RunMaker.End(RunOutcome.Failed), []));
    }

    private int WaitsWithoutEvents(bool simulated, int seconds)
    {
        using RunRecorder recorder = Begin(simulated);
        int waits = 0;
        for (int chunk = 0; chunk < seconds * 1000 / RunMaker.ScansPerChunk; chunk++)
        {
            RunMaker.Fill(_chunk, chunk);
            _chunk.Events.Clear();
            recorder.Append(_chunk);
            waits += WaitsForTheDisk(recorder) ? 1 : 0;
            recorder.Commit();
        }
        return waits;
    }

    private RunRecorder Begin(bool simulated) => (RunRecorder)_logbook.Begin(RunMaker.Header(simulated ? "sim" : "real", simulated));

    private void Append(RunRecorder recorder, int chunk)
    {
        RunMaker.Fill(_chunk, chunk);
        recorder.Append(_chunk);
    }

    private static bool WaitsForTheDisk(RunRecorder recorder) => recorder.Database.Number("pragma synchronous") switch
    {
        1 => false,
        2 => true,
        long other => throw new InvalidOperationException($"synchronous is {other}"),
    };
}
