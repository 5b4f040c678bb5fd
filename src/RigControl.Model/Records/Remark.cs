namespace RigControl.Model.Records;

/// <summary>What a person wrote to a run, during or after it. Written once, never changed.</summary>
/// <param name="Kind">What it tells.</param>
/// <param name="WrittenAt">By the wall clock, in UTC.</param>
/// <param name="Author">Who wrote it.</param>
/// <param name="Subject">The part that was changed; empty with the other kinds.</param>
/// <param name="Text">A sentence.</param>
/// <param name="At">Time of the run that it is about, s; null where it is about the whole run.</param>
public sealed record Remark(RemarkKind Kind, DateTimeOffset WrittenAt, string Author, string Subject, string Text, double? At);

/// <summary>What a remark tells.</summary>
public enum RemarkKind : byte
{
    /// <summary>Anything worth remembering.</summary>
    Note = 0,

    /// <summary>Something that went wrong or nearly did: smoke, a broken screw, a hand too near.</summary>
    Incident = 1,

    /// <summary>A part of the article that was changed before this run.</summary>
    PartChanged = 2,
}

/// <summary>A file that belongs to a run: a clip, a photograph, a trace. It stays where it is; its digest shows whether it is still the same.</summary>
/// <param name="Path">As an absolute path.</param>
/// <param name="Digest">SHA-256 of the content, in hexadecimal.</param>
/// <param name="Bytes">Size.</param>
/// <param name="AttachedAt">By the wall clock, in UTC.</param>
/// <param name="Offset">Time of the run at which a clip begins, s; null where it is not known.</param>
public sealed record Attachment(string Path, string Digest, long Bytes, DateTimeOffset AttachedAt, double? Offset);
