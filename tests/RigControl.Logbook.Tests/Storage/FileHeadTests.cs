using RigControl.Logbook.Storage;
using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests.Storage;

/// <summary>What is seen of a file before it is opened.</summary>
public sealed class FileHeadTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_logbook_passes()
    {
        LogbookFile.Open(_folder.Logbook).Dispose();
        Assert.Null(Record.Exception(() => FileHead.Check(_folder.Logbook)));
    }

    [Fact]
    public void A_file_that_does_not_exist_passes_and_is_not_made()
    {
        FileHead.Check(_folder.Logbook);
        Assert.False(File.Exists(_folder.Logbook));
    }

    [Fact]
    public void A_logbook_one_byte_short_does_not_pass_and_the_sentence_says_how_short_it_is()
    {
        long length = Shorten(by: 1);
        StorageException fault = Assert.Throws<StorageException>(() => FileHead.Check(_folder.Logbook));
        Assert.Contains($"cut short to {length - 1} of {length} bytes", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_short_logbook_with_a_journal_is_left_to_the_database()
    {
        Shorten(by: 1);
        File.WriteAllBytes(_folder.Logbook + "-wal", new byte[32]);
        Assert.Null(Record.Exception(() => FileHead.Check(_folder.Logbook)));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(99)]
    public void A_file_too_short_for_a_head_is_no_logbook(int length)
    {
        Shorten(by: 0);
        File.WriteAllBytes(_folder.Logbook, File.ReadAllBytes(_folder.Logbook)[..length]);
        Assert.Throws<StorageException>(() => FileHead.Check(_folder.Logbook));
    }

    /// <returns>The length of the whole logbook.</returns>
    private long Shorten(int by)
    {
        LogbookFile.Open(_folder.Logbook).Dispose();
        using FileStream file = new(_folder.Logbook, FileMode.Open);
        long length = file.Length;
        file.SetLength(length - by);
        return length;
    }
}
