using Microsoft.Data.Sqlite;
using RigControl.Logbook.Storage;

namespace RigControl.Logbook.Tests.Storage;

/// <summary>
/// Each fault is one sentence that names the file and says what to do. Codes: https://www.sqlite.org/rescode.html, from memory.
/// </summary>
public class StorageFaultTests
{
    [Theory]
    [InlineData(13, "free some space")]
    [InlineData(8, "allow writing")]
    [InlineData(3, "allow writing")]
    [InlineData(14, "see that its folder exists")]
    [InlineData(5, "close it")]
    [InlineData(6, "close it")]
    [InlineData(15, "close it")]
    [InlineData(11, "keep a copy")]
    [InlineData(26, "not a logbook")]
    [InlineData(10, "check the disk")]
    public void A_fault_of_the_database_says_what_to_do(int code, string remedy)
    {
        string sentence = StorageFault.From(new SqliteException("it broke.", code), "bench.sqlite").Message;
        Assert.Contains(remedy, sentence, StringComparison.Ordinal);
        Assert.Contains("bench.sqlite", sentence, StringComparison.Ordinal);
        Assert.EndsWith(".", sentence, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', sentence);
    }

    [Fact]
    public void The_cause_is_kept_for_whoever_looks_deeper()
    {
        SqliteException cause = new("it broke", 10);
        Assert.Same(cause, StorageFault.From(cause, "bench.sqlite").InnerException);
    }
}
