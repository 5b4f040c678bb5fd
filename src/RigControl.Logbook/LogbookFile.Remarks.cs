using RigControl.Logbook.Storage;
using RigControl.Logbook.Texts;
using RigControl.Model.Records;

namespace RigControl.Logbook;

/// <summary>What people add to runs: remarks, tags and files.</summary>
public sealed partial class LogbookFile
{
    /// <summary>Longest text of a remark, in characters.</summary>
    public const int RemarkLength = 10_000;

    /// <summary>Longest tag, in characters.</summary>
    public const int TagLength = 60;

    /// <summary>Adds a remark, safe on the disk when this returns.</summary>
    /// <exception cref="ArgumentException">The text is empty or longer than <see cref="RemarkLength"/>.</exception>
    public void Remark(string run, Remark remark)
    {
        if (string.IsNullOrWhiteSpace(remark.Text) || remark.Text.Length > RemarkLength)
            throw new ArgumentException($"A remark has 1 to {RemarkLength} characters.", nameof(remark));
        _database.Run(
            "insert into remark (run, kind, written_at, author, subject, text, at) values ($1, $2, $3, $4, $5, $6, $7)",
            NumberOf(run), RemarkNames.Name(remark.Kind), WallTime.Write(remark.WrittenAt), remark.Author, remark.Subject, remark.Text, remark.At);
    }

    /// <summary>Remarks in the order in which they were written.</summary>
    public IReadOnlyList<Remark> Remarks(string run) =>
        ReadAll(_database.Query("select kind, written_at, author, subject, text, at from remark where run = $1 order by id", NumberOf(run)), row =>
            new Remark(RemarkNames.Parse(row.Text(0)), WallTime.Read(row.Text(1)), row.Text(2), row.Text(3), row.Text(4), row.Real(5)));

    /// <summary>Whether a text can be a tag: letters, digits, <c>-</c>, <c>_</c> and <c>.</c>, so that it needs no quoting anywhere.</summary>
    public static bool IsTag(string text) =>
        text.Length is > 0 and <= TagLength && text.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_' or '.');

    /// <summary>Tags a run; a tag that it has already stays.</summary>
    /// <exception cref="ArgumentException">The text is no tag.</exception>
    public void Tag(string run, string tag)
    {
        if (!IsTag(tag))
            throw new ArgumentException($"'{tag}' is no tag.", nameof(tag));
        _database.Run("insert or ignore into tag (run, tag) values ($1, $2)", NumberOf(run), tag);
    }

    /// <summary>Takes a tag away.</summary>
    /// <returns>Whether the run had it.</returns>
    public bool Untag(string run, string tag) =>
        _database.Number("delete from tag where run = $1 and tag = $2 returning 1", NumberOf(run), tag) == 1;

    public IReadOnlyList<string> Tags(string run) =>
        ReadAll(_database.Query("select tag from tag where run = $1 order by tag", NumberOf(run)), row => row.Text(0));

    /// <summary>Runs with a tag, the newest last.</summary>
    public IReadOnlyList<RunSummary> RunsTagged(string tag) =>
        ReadAll(_database.Query($"{SummaryColumns} join tag on tag.run = run.id where tag.tag = $1 order by started_at, id", tag), Summary);

    /// <summary>Runs that started from one time up to but without another, the newest last.</summary>
    public IReadOnlyList<RunSummary> RunsBetween(DateTimeOffset from, DateTimeOffset to) => ReadAll(
        _database.Query($"{SummaryColumns} where started_at >= $1 and started_at < $2 order by started_at, id", WallTime.Write(from), WallTime.Write(to)), Summary);

    /// <summary>Notes a file by its path and digest; one noted before is noted anew.</summary>
    public void Attach(string run, Attachment file) => _database.Run(
        "insert or replace into attachment (run, path, digest, bytes, attached_at, \"offset\") values ($1, $2, $3, $4, $5, $6)",
        NumberOf(run), file.Path, file.Digest, file.Bytes, WallTime.Write(file.AttachedAt), file.Offset);

    public IReadOnlyList<Attachment> Attachments(string run) =>
        ReadAll(_database.Query("select path, digest, bytes, attached_at, \"offset\" from attachment where run = $1 order by id", NumberOf(run)), row =>
            new Attachment(row.Text(0), row.Text(1), row.Number(2), WallTime.Read(row.Text(3)), row.Real(4)));
}
