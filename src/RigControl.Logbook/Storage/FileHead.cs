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

    private const int HeaderLength = 100;

    private static ReadOnlySpan<byte> Magic => "SQLite format 3\0"u8;

    /// <summary>Refuses a file that is neither empty nor a logbook.</summary>
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
    }

    private static int Read(string path, Span<byte> head)
    {
        if (!File.Exists(path))
            return 0;
        using FileStream file = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        return file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
    }
}
