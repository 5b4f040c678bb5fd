using RigControl.Analysis.Guarding;
using RigControl.Cli.Judging;
using RigControl.Documents;
using RigControl.Logbook;
using RigControl.Model.Procedures;
using RigControl.Model.Records;
using RigControl.Model.Rig;
using RigControl.Rehearsal.Runaway;
using RigControl.Runtime.Rigs;
using RigControl.Runtime.Scanning;

namespace RigControl.Cli.Tests.Judging;

/// <summary>A rotor runs on a real rig only inside what holds it and what keeps people from it, as far as these are declared.</summary>
public sealed class ContainmentTests : IDisposable
{
    private static readonly GuardDefinition Screwed = new() { Kind = GuardKind.Fixed, Source = "tried", OpeningTime = TimeSpan.FromSeconds(91), Margin = 0.5 };

    private static readonly RigDefinition Box = new()
    {
        Name = "box", ScanPeriod = TimeSpan.FromMilliseconds(5), StandstillSpeed = 60, StandstillTime = TimeSpan.FromSeconds(1), Devices = [], Interlocks = [],
    };

    private static readonly Article Disc = DocumentReader.ReadArticle(File.ReadAllText(Installed.Sample("disc-180.article.yaml")), "f").Value!;

    private readonly string _folder = Directory.CreateTempSubdirectory("rigcontrol-test-").FullName;
    private readonly LogbookFile _book;

    public ContainmentTests() => _book = LogbookFile.Open(Path.Combine(_folder, "logbook.sqlite"));

    public void Dispose()
    {
        _book.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    [Trait("Requirement", "SAF-085")]
    [Fact]
    public void A_rating_below_what_a_runaway_stores_is_refused_with_what_to_do()
    {
        Objection objection = ObjectionTo(Box with { EnclosureRating = 150, EnclosureSource = "tried with a ball" })!;
        Assert.Equal("enclosure-rating", objection.Interlock);
        Assert.Matches("^a runaway stores up to [0-9]+ J .* more than the 150 J that box's enclosure is rated for \\(tried with a ball\\); take fewer cells", objection.Reason);
        Assert.Null(ObjectionTo(Box with { EnclosureRating = 400 }));
    }

    [Fact]
    public void What_nobody_has_declared_is_no_objection() => Assert.Null(ObjectionTo(Box));

    [Fact]
    public void Without_a_rotor_there_is_nothing_to_hold() =>
        Assert.Null(Containment.ObjectionTo(Of(Box with { EnclosureRating = 1, Guard = Screwed with { OpeningTime = TimeSpan.FromSeconds(1) } }, Disc with { Rotor = null }), null, _book));

    [Trait("Requirement", "SAF-085")]
    [Fact]
    public void A_guard_that_is_not_accepted_is_refused()
    {
        Assert.Null(ObjectionTo(Box with { Guard = Screwed }));
        Objection objection = ObjectionTo(Box with { Guard = Screwed with { OpeningTime = TimeSpan.FromSeconds(80) } })!;
        Assert.Equal("guard", objection.Interlock);
        Assert.StartsWith("box with disc-180: opening the fixed guard takes 80 s, as declared (tried)", objection.Reason, StringComparison.Ordinal);
        Assert.NotNull(ObjectionTo(Box with { Guard = Screwed with { Kind = GuardKind.Interlocked, Release = new(NeedsTool: false, OpensCoil: true) } }));
    }

    [Trait("Requirement", "SAF-085")]
    [Fact]
    public void A_real_coast_down_longer_than_declared_counts_at_the_upper_end_of_its_interval_and_a_simulated_one_does_not()
    {
        Record("r1", simulated: true, (65, 90));
        Assert.Null(ObjectionTo(Box with { Guard = Screwed }));
        Record("r2", simulated: false, (55, 61.5), (40, 41));
        Assert.Equal(new StoppingTime(60, 61.5, "r2"), Containment.Longest(Disc, _book));
        Assert.Contains("measured in run r2", ObjectionTo(Box with { Guard = Screwed })!.Reason, StringComparison.Ordinal);
    }

    [Trait("Requirement", "SAF-082")]
    [Fact]
    public void A_cut_that_was_seen_to_act_lets_a_rating_be_lower_and_one_that_acts_too_late_does_not()
    {
        RigDefinition weak = Box with { EnclosureRating = 150 };
        Assert.EndsWith("rigcontrol failsafe --rotor-removed", ObjectionTo(weak)!.Reason, StringComparison.Ordinal);
        Assert.Null(ObjectionTo(weak, new OverSpeedCut(8000, TimeSpan.FromSeconds(0.03))));
        Objection late = ObjectionTo(weak, new OverSpeedCut(8000, TimeSpan.FromSeconds(0.5)))!;
        Assert.DoesNotContain("--rotor-removed", late.Reason, StringComparison.Ordinal);
    }

    private Objection? ObjectionTo(RigDefinition rig, OverSpeedCut? cut = null) => Containment.ObjectionTo(Of(rig, Disc), cut, _book);

    private static RigDocuments Of(RigDefinition rig, Article article)
    {
        Procedure procedure = DocumentReader.ReadProcedure("procedure: look\nrequires: []\nsteps: [{ rest: { for: 1 s } }]", "f").Value!;
        return new(rig, new(rig.Name, ""), article, new(article.Name, ""), procedure, new(procedure.Name, ""));
    }

    private void Record(string run, bool simulated, params (double Value, double Upper)[] seconds)
    {
        RunHeader header = new()
        {
            Run = run, StartedAt = DateTimeOffset.UnixEpoch, Simulated = simulated, Seed = 0, Operator = "o", Software = "1",
            Procedure = new("p", ""), Rig = new("box", ""), Article = new("disc-180", ""), Plugins = [], Devices = [], Interlocks = [], Channels = [],
        };
        using IRunRecorder recorder = _book.Begin(header);
        recorder.Finish(
            new RunEnd(RunOutcome.Completed, header.StartedAt, null),
            [.. seconds.Select((s, i) => new Figure("coast-down-time", s.Value, "s", 1, (s.Value - 1, s.Upper), i + 1, "m", null))]);
    }
}
