using System.Text.Json;
using RigControl.Cli.Failsafe;
using RigControl.Logbook;
using RigControl.Model.Records;
using RigControl.Runtime.Failsafe;

namespace RigControl.Cli.Tests.Failsafe;

/// <summary>The latest proof of a rig is found in the logbook, with whatever happened on the rig since and voids it.</summary>
public sealed class ProofShelfTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("rigcontrol-test-").FullName;
    private readonly LogbookFile _book;
    private int _minute;

    public ProofShelfTests() => _book = LogbookFile.Open(Path.Combine(_folder, "logbook.sqlite"));

    public void Dispose()
    {
        _book.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public void A_logbook_without_a_verification_has_none()
    {
        Record("run1");
        Assert.Equal((null, null), Latest());
    }

    [Fact]
    public void The_latest_one_of_the_rig_with_the_article_is_found()
    {
        Verify("first");
        Verify("article2", article: "another");
        Verify("rig2", rig: "another");
        Verify("latest");
        Record("run1");
        Assert.Equal(("latest", null), Latest());
    }

    [Trait("Requirement", "SAF-079")]
    [Theory]
    [InlineData("clock-step", "")]
    [InlineData("output-guard", "")]
    [InlineData("contactor", "power-follows")]
    [InlineData("pulse", "output-follows")]
    [InlineData("leak", "current-without-power")]
    public void A_trip_that_says_that_a_way_to_stop_is_not_what_was_seen_voids_it_whatever_the_rig_file_calls_it(string cause, string kind)
    {
        Verify("v");
        Record("run1", Trip(cause), kind.Length > 0 ? new InterlockIdentity(cause, kind, new Dictionary<string, string>()) : null);
        Assert.Equal(("v", "run run1 ended with: it happened"), Latest());
    }

    [Fact]
    public void A_trip_that_the_rig_is_there_for_voids_nothing()
    {
        Verify("v");
        Record("run1", Trip("power-follows"), new InterlockIdentity("power-follows", "temperature-ceiling", new Dictionary<string, string>()));
        Assert.Equal(("v", null), Latest());
    }

    [Theory]
    [InlineData(EventNames.DeviceLost)]
    [InlineData(EventNames.Hung)]
    public void A_device_that_was_lost_or_code_that_hung_voids_it(string name)
    {
        Verify("v");
        Record("run1", Event(name, "board"));
        Record("run2");
        Assert.Equal(("v", "run run1 ended with: it happened"), Latest());
    }

    [Fact]
    public void What_happened_on_another_rig_voids_nothing()
    {
        Verify("v");
        Record("run1", Trip("clock-step"), rig: "another");
        Assert.Equal(("v", null), Latest());
    }

    [Trait("Requirement", "SAF-079")]
    [Fact]
    public void A_later_verification_that_failed_voids_it_and_one_that_passed_takes_its_place()
    {
        Verify("v");
        Record("failed", procedure: VerificationProcedure.Name);
        Assert.Contains("has failed since", Latest().Since!, StringComparison.Ordinal);
        Verify("again");
        Assert.Equal(("again", null), Latest());
    }

    [Theory]
    [InlineData("{")]
    [InlineData("null")]
    [InlineData("\"text\"")]
    public void A_proof_that_no_longer_reads_is_a_verification_that_failed(string text)
    {
        Record("v", Event(EventNames.FailsafeProof, "", text), procedure: VerificationProcedure.Name);
        Assert.Equal((null, true), (Latest().Run, Latest().Since!.Contains("has failed since", StringComparison.Ordinal)));
    }

    [Trait("Requirement", "SAF-092")]
    [Fact]
    public void What_happened_after_it_voids_it_although_the_clock_was_set_back_in_between()
    {
        _minute = 60;
        Verify("v");
        _minute = 5;
        Record("run1", Trip("clock-step"));
        Assert.Equal(("v", "run run1 ended with: it happened"), Latest());
    }

    [Trait("Requirement", "SAF-092")]
    [Fact]
    public void A_clock_that_shows_less_than_the_latest_run_voids_it_whichever_rig_that_was_on()
    {
        Verify("v");
        _minute = 100;
        Record("run1", rig: "another");
        Assert.Contains("the logbook holds what happened at 1970-01-01 01:40 UTC", ClockSet(At(98)), StringComparison.Ordinal);
        Assert.Null(ClockSet(At(100)));
    }

    [Fact]
    public void When_a_trace_was_recorded_elsewhere_says_nothing_of_this_clock_nor_does_what_came_before_the_proof()
    {
        _minute = 200;
        Record("before");
        _minute = 0;
        Verify("v");
        _minute = 300;
        Record("typed", rig: "by-hand", ended: 3);
        Assert.Null(ClockSet(At(4)));
        Record("imported", rig: "imported", ended: 10);
        Assert.NotNull(ClockSet(At(4)));
    }

    [Trait("Requirement", "SAF-092")]
    [Fact]
    public void A_clock_that_was_set_since_the_verification_voids_it_although_nothing_else_was_recorded()
    {
        ComputerClock made = At(0);
        Verify("v", clock: made);
        ComputerClock later = made with { Wall = made.Wall.AddHours(1), Up = made.Up + TimeSpan.FromHours(3) };
        Assert.Equal("the clock of this computer was set back by 2 h or so since the failsafe was verified", ClockSet(later));
        Assert.Null(ClockSet(later with { Wall = made.Wall.AddHours(3) }));
    }

    private string? ClockSet(ComputerClock now)
    {
        ProofShelf shelf = new(_book, Path.Combine(_folder, "key"));
        return shelf.ClockSetSince(shelf.Latest("box", "disc", out _)!, now);
    }

    private static ComputerClock At(int minute) => new(DateTimeOffset.UnixEpoch.AddMinutes(minute), "one", TimeSpan.FromHours(1));

    private (string? Run, string? Since) Latest() => (new ProofShelf(_book, Path.Combine(_folder, "key")).Latest("box", "disc", out string? since)?.Run, since);

    private void Verify(string run, string rig = "box", string article = "disc", ComputerClock? clock = null)
    {
        FailsafeProof proof = new() { Run = run, MadeAt = DateTimeOffset.UnixEpoch, ValidUntil = DateTimeOffset.UnixEpoch, Simulated = false, BoundTo = [], Provocations = [], Clock = clock };
        Record(run, Event(EventNames.FailsafeProof, "", JsonSerializer.Serialize(proof)), procedure: VerificationProcedure.Name, rig: rig, article: article);
    }

    private void Record(string run, RigEvent? happened = null, InterlockIdentity? interlock = null, string procedure = "p", string rig = "box", string article = "disc", int? ended = null)
    {
        RunHeader header = new()
        {
            Run = run, StartedAt = DateTimeOffset.UnixEpoch.AddMinutes(_minute++), Simulated = false, Seed = 0, Operator = "o", Software = "1",
            Procedure = new(procedure, ""), Rig = new(rig, ""), Article = new(article, ""), Plugins = [], Devices = [], Interlocks = interlock is null ? [] : [interlock], Channels = [],
        };
        using IRunRecorder recorder = _book.Begin(header);
        if (happened is not null)
        {
            RecordChunk chunk = new(0);
            chunk.Events.Add(happened);
            recorder.Append(chunk);
        }

        recorder.Finish(new RunEnd(RunOutcome.Completed, ended is { } minute ? At(minute).Wall : header.StartedAt, null), []);
    }

    private static RigEvent Trip(string cause) => Event(EventNames.Trip, cause);

    private static RigEvent Event(string name, string subject, string? proof = null) =>
        new(TimeSpan.Zero, 0, name, subject, "it happened", proof is null ? new Dictionary<string, object>() : new Dictionary<string, object> { ["proof"] = proof });
}
