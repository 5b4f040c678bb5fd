using RigControl.Logbook;
using RigControl.Model.Records;

namespace RigControl.Cli.Runs;

/// <summary>What people added to a run.</summary>
internal sealed record RunAdditions(IReadOnlyList<Remark> Remarks, IReadOnlyList<string> Tags, IReadOnlyList<Attachment> Files)
{
    public static RunAdditions None { get; } = new([], [], []);

    public static RunAdditions Read(LogbookFile book, string run) => new(book.Remarks(run), book.Tags(run), book.Attachments(run));
}
