using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Model.Rig;

namespace RigControl.Cli.Tests.Runs;

/// <summary>What the logbook knows of how a rig's rotor was left.</summary>
public sealed class RotorBeforeTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("rigcontrol-test-").FullName;
    private readonly LogbookFile _book;
    private int _minute;

    public RotorBeforeTests() => _book = LogbookFile.Open(Path.Combine(_folder, "logbook.sqlite"));

    public void Dispose()
    {
        _book.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public void A_rig_that_never_ran_left_nothing_turning() => Assert.Null(Left());

    [Trait("Requirement", "SAF-089")]
    [Fact]
    public void A_run_that_was_broken_off_after_it_armed_left_it_turning()
    {
        Record("run1", "box", Armed, Rest);
        Record("run2", "box", Armed);
        Assert.Equal("run2", Left());
    }

    [Trait("Requirement", "SAF-089")]
    [Fact]
    public void Runs_after_it_that_armed_nothing_change_nothing()
    {
        Record("run1", "box", Armed);
        Record("run2", "box", Entered(RigState.Idle));
        Record("run3", "box");
        Assert.Equal("run1", Left());
    }

    [Fact]
    public void A_run_that_ended_at_rest_ends_the_doubt_whether_it_armed_or_not()
    {
        Record("run1", "box", Armed);
        Record("run2", "box", Rest);
        Assert.Null(Left());
    }

    [Trait("Requirement", "SAF-089")]
    [Fact]
    public void A_clock_that_was_set_back_does_not_hide_the_latest_run()
    {
        _minute = 60;
        Record("run1", "box", Armed, Rest);
        _minute = 5;
        Record("run2", "box", Armed);
        Assert.Equal("run2", Left());
    }

    [Fact]
    public void Another_rig_is_another_rotor()
    {
        Record("run1", "other-box", Armed);
        Assert.Null(Left());
    }

    private static RigEvent Armed => Entered(RigState.Arming);

    private static RigEvent Rest => Event(EventNames.LeftAtRest, "host");

    private static RigEvent Entered(RigState state) => Event(EventNames.StateEntered, state.ToString());

    private static RigEvent Event(string name, string subject) => new(TimeSpan.Zero, 0, name, subject, "it happened", new Dictionary<string, object>());

    private string? Left() => RotorBefore.LeftTurning(_book, "box");

    private void Record(string run, string rig, params IEnumerable<RigEvent> happened)
    {
        RunHeader header = new()
        {
            Run = run, StartedAt = DateTimeOffset.UnixEpoch.AddMinutes(_minute++), Simulated = false, Seed = 0, Operator = "o", Software = "1",
            Procedure = new("p", ""), Rig = new(rig, ""), Article = new("disc", ""), Plugins = [], Devices = [], Interlocks = [], Channels = [],
        };
        using IRunRecorder recorder = _book.Begin(header);
        RecordChunk chunk = new(0);
        chunk.Events.AddRange(happened);
        recorder.Append(chunk);
        recorder.Finish(new RunEnd(RunOutcome.SafeStop, header.StartedAt, null), []);
    }
}
