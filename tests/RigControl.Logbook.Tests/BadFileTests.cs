using Microsoft.Data.Sqlite;
using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests;

/// <summary>A file that is no sound logbook is a sentence to act on, and is left as it is.</summary>
public sealed class BadFileTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_folder_that_does_not_exist_is_made()
    {
        string path = Path.Combine(_folder.Path, "a", "b", "logbook.sqlite");
        using LogbookFile logbook = LogbookFile.Open(path);
        Assert.True(File.Exists(path));
    }

    [Fact]
    public void An_empty_file_becomes_a_logbook()
    {
        File.WriteAllBytes(_folder.Logbook, []);
        using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        Assert.Empty(logbook.Runs());
    }

    [Fact]
    public void A_folder_is_refused_with_a_file_to_name() =>
        Assert.Contains(Path.Combine(_folder.Path, "logbook.sqlite"), Refusal(_folder.Path), StringComparison.Ordinal);

    [Theory]
    [InlineData("a shopping list")]
    [InlineData("SQLite format 3\0 is how this text begins, and it goes on for so long that it could have a whole header in it, but it has none.")]
    public void A_foreign_file_is_refused_and_left_as_it_is(string content)
    {
        File.WriteAllText(_folder.Logbook, content);
        Assert.Contains("not a logbook", Refusal(_folder.Logbook), StringComparison.Ordinal);
        Assert.Equal(content, File.ReadAllText(_folder.Logbook));
        Assert.Single(Directory.GetFiles(_folder.Path));
    }

    [Fact]
    public void The_database_of_another_program_is_refused_and_left_as_it_is()
    {
        Execute("create table recipe (name text)");
        byte[] before = File.ReadAllBytes(_folder.Logbook);
        Assert.Contains("not a logbook", Refusal(_folder.Logbook), StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(_folder.Logbook));
    }

    [Fact]
    public void A_logbook_of_a_newer_program_is_refused_and_left_as_it_is()
    {
        MakeLogbook();
        Execute("pragma user_version = 99");
        byte[] before = File.ReadAllBytes(_folder.Logbook);
        string refusal = Refusal(_folder.Logbook);
        Assert.Contains("newer version", refusal, StringComparison.Ordinal);
        Assert.Contains("99", refusal, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(_folder.Logbook));
    }

    [Fact]
    public void A_logbook_cut_short_anywhere_is_refused_or_reads_as_damaged()
    {
        MakeLogbook();
        byte[] whole = File.ReadAllBytes(_folder.Logbook);
        for (int length = 1; length < whole.Length; length += 1021)
        {
            File.WriteAllBytes(_folder.Logbook, whole[..length]);
            Assert.NotEmpty(Refusal(_folder.Logbook));
            Assert.Equal(whole[..length], File.ReadAllBytes(_folder.Logbook));
        }
    }

    [Fact]
    public void Any_damage_within_a_logbook_ends_in_a_sentence_or_in_blocks_that_read_as_they_were_written()
    {
        MakeLogbook(chunks: 150);
        byte[] whole = File.ReadAllBytes(_folder.Logbook);
        HashSet<string> written = [.. Blocks()];
        int refused = 0;
        Seeds.Each(100, random =>
        {
            byte[] damaged = [.. whole];
            int at = random.Next(damaged.Length - 200);
            random.NextBytes(damaged.AsSpan(at, random.Next(1, 200)));
            File.WriteAllBytes(_folder.Logbook, damaged);
            if (ReadEverything())
                Assert.Subset(written, new HashSet<string>(Blocks()));
            else
                refused++;
        });
        Assert.InRange(refused, 30, 100);
    }

    [Fact]
    public void A_header_that_cannot_be_read_is_damage()
    {
        MakeLogbook();
        Execute("update run set header = '{\"run\":'");
        using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        Assert.Contains("damaged", Assert.Throws<StorageException>(() => logbook.Header("a1")).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_lost_block_of_samples_takes_nothing_else_with_it()
    {
        MakeLogbook();
        Execute("delete from sample_block where device = 0 and first = 40");
        using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        Assert.Equal(2 * RunMaker.ScansPerChunk * 9, logbook.Samples("a1", 0).Count());
        Assert.Equal(10, Recorded.CountChunks(logbook, "a1"));
    }

    [Fact]
    public void A_place_that_nobody_can_write_is_refused()
    {
        Assert.SkipUnless(Directory.Exists("/proc/self"), "there is no /proc to stand for a place that cannot be written");
        Assert.Contains("cannot be", Refusal("/proc/rigcontrol/logbook.sqlite"), StringComparison.Ordinal);
        Assert.Contains("cannot be", Refusal("/proc/logbook.sqlite"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_logbook_on_a_read_only_medium_is_refused_and_left_as_it_is()
    {
        using SmallDisk disk = SmallDisk.Mount(megabytes: 4);
        string path = Path.Combine(disk.Path, "logbook.sqlite");
        using (LogbookFile logbook = LogbookFile.Open(path))
            RunMaker.Record(logbook, "a1", chunks: 2);
        disk.MakeReadOnly();
        Assert.Contains("cannot be", Refusal(path), StringComparison.Ordinal);
        Assert.Contains("cannot be", Refusal(Path.Combine(disk.Path, "other.sqlite")), StringComparison.Ordinal);
    }

    private static string Refusal(string path) => Assert.Throws<StorageException>(() =>
    {
        using LogbookFile logbook = LogbookFile.Open(path);
        logbook.Runs();
    }).Message;

    private void MakeLogbook(int chunks = 10)
    {
        using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
        RunMaker.Record(logbook, "a1", chunks);
    }

    /// <returns>False when a sentence said that something is wrong; any other failure is let through.</returns>
    private bool ReadEverything()
    {
        try
        {
            using LogbookFile logbook = LogbookFile.Open(_folder.Logbook);
            foreach (RunSummary run in logbook.Runs())
            {
                _ = logbook.Header(run.Run);
                _ = logbook.End(run.Run);
                _ = logbook.Figures(run.Run).Count + logbook.Events(run.Run).Count + logbook.SamplesByTime(run.Run).Count();
                foreach (ref readonly ScanRecord scan in logbook.Scans(run.Run))
                    _ = scan.Scan;
            }
            return true;
        }
        catch (Exception fault) when (fault is StorageException or UnknownRunException)
        {
            return false;
        }
    }

    /// <summary>The content of every block that the file gives out.</summary>
    private List<string> Blocks()
    {
        using SqliteConnection connection = new($"Data Source={_folder.Logbook};Pooling=False");
        connection.Open();
        using SqliteCommand command = new("select hex(data) from scan_block union all select hex(data) from sample_block", connection);
        using SqliteDataReader rows = command.ExecuteReader();
        List<string> blocks = [];
        while (rows.Read())
            blocks.Add(rows.GetString(0));
        return blocks;
    }

    private void Execute(string sql)
    {
        using SqliteConnection connection = new($"Data Source={_folder.Logbook};Pooling=False");
        connection.Open();
        using SqliteCommand command = new(sql, connection);
        command.ExecuteNonQuery();
    }
}
