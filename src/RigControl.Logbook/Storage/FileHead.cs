using System.Buffers.Binary;

namespace RigControl.Logbook.Storage;

/// <summary>
/// A look at the first bytes of a file, so that a foreign file is refused before a database is asked to open it: opening
/// can replay a journal, and that is not ours to do.
/// </summary>
internal static class FileHead
{
    /// <summary>Place of the application id in the header, https://www.sqlite.org/fileformat.html#the_database_header.</summary>
    private const int ApplicationIdAt = 68;

    private const int PageSizeAt = 16;

    private const int PageCountAt = 28;

    private const int HeaderLength = 100;

    private static ReadOnlySpan<byte> Magic => "SQLite format 3\0"u8;

    /// <summary>Refuses a file that is neither empty nor a whole logbook.</summary>
    public static void Check(string path)
    {
        Span<byte> head = stackalloc byte[HeaderLength];
        int length = Read(path, head);
        if (length == 0)
            return;
        bool ours = length == HeaderLength && head.StartsWith(Magic)
            && BinaryPrimitives.ReadInt32BigEndian(head[ApplicationIdAt..]) == Schema.ApplicationId;
        if (!ours)
            throw StorageFault.Foreign(path);
        CheckLength(path, head);
    }

    /// <summary>
    /// A file shorter than its header says was cut short. A journal beside it may still hold the rest, and then it is for
    /// the database to say.
    /// </summary>
    private static void CheckLength(string path, ReadOnlySpan<byte> head)
    {
        // 1 stands for 65536, which does not fit.
        int size = BinaryPrimitives.ReadUInt16BigEndian(head[PageSizeAt..]) is > 1 and var written ? written : 65536;
        long due = size * (long)BinaryPrimitives.ReadUInt32BigEndian(head[PageCountAt..]);
        long length = new FileInfo(path).Length;
        if (length < due && !File.Exists(path + "-wal") && !File.Exists(path + "-journal"))
            throw StorageFault.Damaged(path, new InvalidDataException($"it was cut short to {length} of {due} bytes"));
    }

    private static int Read(string path, Span<byte> head)
    {
        if (!File.Exists(path))
            return 0;
        using FileStream file = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        return file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
    }
}
