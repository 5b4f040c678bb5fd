using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests;

/// <summary>What people add to a run stays with it.</summary>
public sealed class RemarkTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2031, 5, 4, 17, 0, 0, TimeSpan.Zero);

    private readonly TemporaryFolder _folder = new();
    private readonly LogbookFile _logbook;

    public RemarkTests()
    {
        _logbook = LogbookFile.Open(_folder.Logbook);
        RunMaker.Record(_logbook, "a", chunks: 1);
        RunMaker.Record(_logbook, "b", chunks: 1);
    }

    public void Dispose()
    {
        _logbook.Dispose();
        _folder.Dispose();
    }

    [Fact]
    public void Remarks_come_back_as_they_were_written_and_in_their_order()
    {
        Remark[] written =
        [
            new(RemarkKind.Note, Now, "school workshop", "", "it hums; \"loudly\"\nand ä", null),
            new(RemarkKind.Incident, Now.AddMinutes(1), "school workshop", "", "smoke", 12.5),
            new(RemarkKind.PartChanged, Now.AddMinutes(2), "school workshop", "belt", "the longer one", null),
        ];
        foreach (Remark remark in written)
            _logbook.Remark("a", remark);
        Assert.Equal(written, _logbook.Remarks("a"));
        Assert.Empty(_logbook.Remarks("b"));
    }

    [Theory]
    [InlineData("")]
    [InlineData("  \n")]
    public void A_remark_that_says_nothing_is_refused(string text) =>
        Assert.Throws<ArgumentException>(() => _logbook.Remark("a", new Remark(RemarkKind.Note, Now, "school workshop", "", text, null)));

    [Fact]
    public void A_remark_longer_than_the_limit_is_refused() =>
        Assert.Throws<ArgumentException>(() => _logbook.Remark("a", new Remark(RemarkKind.Note, Now, "school workshop", "", new string('x', LogbookFile.RemarkLength + 1), null)));

    [Fact]
    public void A_remark_to_a_run_that_is_not_there_is_a_sentence() =>
        Assert.Throws<UnknownRunException>(() => _logbook.Remark("c", new Remark(RemarkKind.Note, Now, "school workshop", "", "x", null)));

    [Fact]
    public void Tags_are_kept_once_found_and_taken_away()
    {
        _logbook.Tag("a", "new-belt");
        _logbook.Tag("a", "new-belt");
        _logbook.Tag("a", "cold");
        _logbook.Tag("b", "cold");
        Assert.Equal(["cold", "new-belt"], _logbook.Tags("a"));
        Assert.Equal(["a", "b"], _logbook.RunsTagged("cold").Select(r => r.Run));
        Assert.True(_logbook.Untag("a", "cold"));
        Assert.False(_logbook.Untag("a", "cold"));
        Assert.Equal(["b"], _logbook.RunsTagged("cold").Select(r => r.Run));
    }

    [Theory]
    [InlineData("")]
    [InlineData("two words")]
    [InlineData("a+b")]
    [InlineData("grün")]
    public void What_would_need_quoting_is_no_tag(string tag) => Assert.Throws<ArgumentException>(() => _logbook.Tag("a", tag));

    [Fact]
    public void Runs_between_two_times_have_the_first_and_not_the_second()
    {
        DateTimeOffset started = _logbook.Find("a").StartedAt;
        Assert.Equal(2, _logbook.RunsBetween(started, started.AddTicks(1)).Count);
        Assert.Empty(_logbook.RunsBetween(started.AddTicks(-1), started));
    }

    [Fact]
    public void A_file_is_kept_by_path_and_digest_and_its_change_shows()
    {
        string clip = _folder.File("clip.mp4");
        File.WriteAllText(clip, "abc");
        _logbook.Attach("a", FileDigest.Of(clip, Now, offset: null));
        _logbook.Attach("a", FileDigest.Of(clip, Now, offset: -1.25));
        Attachment kept = Assert.Single(_logbook.Attachments("a"));
        // SHA-256 of "abc": FIPS 180-2, appendix B.1; from memory.
        Assert.Equal(("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", 3, -1.25), (kept.Digest, kept.Bytes, kept.Offset));
        Assert.Null(FileDigest.Change(kept));
        File.WriteAllText(clip, "abd");
        Assert.True(FileDigest.Change(kept)!.Value.Damage);
        File.Delete(clip);
        Assert.False(FileDigest.Change(kept)!.Value.Damage);
    }
}
