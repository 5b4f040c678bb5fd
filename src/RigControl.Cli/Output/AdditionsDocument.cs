using System.Globalization;
using RigControl.Cli.Runs;
using RigControl.Model.Records;

namespace RigControl.Cli.Output;

/// <summary>What people added to a run, as JSON and as lines.</summary>
internal static class AdditionsDocument
{
    public static object Of(string run, RunAdditions additions) => new
    {
        run,
        tags = additions.Tags,
        remarks = additions.Remarks.Select(Of),
        files = additions.Files.Select(Of),
    };

    public static object Of(Remark remark) => new
    {
        kind = Word(remark.Kind), subject = remark.Subject.Length > 0 ? remark.Subject : null, text = remark.Text, at = remark.At,
        author = remark.Author, writtenAt = Time(remark.WrittenAt),
    };

    public static object Of(Attachment file) => new
    {
        path = file.Path, sha256 = file.Digest, bytes = file.Bytes, attachedAt = Time(file.AttachedAt), offset = file.Offset,
    };

    public static IEnumerable<string> Lines(RunAdditions additions)
    {
        if (additions.Tags.Count > 0)
            yield return $"tags: {string.Join(", ", additions.Tags)}";
        foreach (Remark remark in additions.Remarks)
            yield return Line(remark);
        foreach (Attachment file in additions.Files)
            yield return string.Create(CultureInfo.InvariantCulture, $"file: {file.Path}{(file.Offset is { } o ? $", its time 0 is {o:0.000} s of the run" : "")}");
    }

    public static string Line(Remark remark)
    {
        string at = remark.At is { } time ? string.Create(CultureInfo.InvariantCulture, $" at {time:0.000} s") : "";
        return remark.Kind == RemarkKind.PartChanged ? $"changed before this run: {remark.Subject}: {remark.Text}" : $"{Word(remark.Kind)}{at}: {remark.Text}";
    }

    public static string Word(RemarkKind kind) => kind switch
    {
        RemarkKind.Incident => "incident",
        RemarkKind.PartChanged => "part changed",
        _ => "note",
    };

    private static string Time(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
