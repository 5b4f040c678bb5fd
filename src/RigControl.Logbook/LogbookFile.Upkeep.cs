using RigControl.Logbook.Storage;
using RigControl.Logbook.Texts;
using RigControl.Model.Records;

namespace RigControl.Logbook;

/// <summary>What keeps a logbook sound, doubled and small.</summary>
public sealed partial class LogbookFile
{
    /// <summary>Time before and after a trip of which a pruned run keeps all: longer than anything takes from a fault to the stopped output.</summary>
    public static readonly TimeSpan KeptAroundTrip = TimeSpan.FromSeconds(5);

    private const string SamplesAwayFromTrips = """
        delete from sample_block where run = $1 and not exists (
            select 1 from event where event.run = $1 and event.name = $2
                and sample_block.first_at <= event.at + $3 and sample_block.last_at >= event.at - $3)
        """;

    // A block of scans lasts until the next one begins.
    private const string ScansAwayFromTrips = """
        delete from scan_block where id in (
            select id from (select id, first_now, lead(first_now) over (order by first_scan) as next_now from scan_block where run = $1) as block
            where not exists (
                select 1 from event where event.run = $1 and event.name = $2
                    and block.first_now <= event.at + $3 and (block.next_now is null or block.next_now >= event.at - $3)))
        """;

    /// <summary>
    /// Reads the whole file and holds it against itself: the database's own checks, every block of every run, gaps in the
    /// order of scans and samples, and the files that runs name. Nothing is changed.
    /// </summary>
    /// <param name="seen">Told of each run before it is read; may be null.</param>
    public Soundness Verify(Action<string>? seen = null) => new Verification(this, _database).Run(seen);

    /// <summary>
    /// Writes a copy as it is at this moment, while runs go on being recorded. The copy has its name only once it is whole
    /// and on the disk.
    /// </summary>
    /// <returns>Size of the copy, bytes.</returns>
    /// <exception cref="StorageException">The file exists already, or cannot be written.</exception>
    public long Backup(string path)
    {
        path = System.IO.Path.GetFullPath(path);
        if (File.Exists(path) || Directory.Exists(path))
            throw new StorageException($"{path} exists already and is left as it is: name a file that does not exist.");
        string part = path + ".part";
        try
        {
            Directory.CreateDirectory(System.IO.Path.GetDirectoryName(path)!);
            File.Delete(part);
            _database.Run("vacuum into $1", part);
            using (FileStream written = new(part, FileMode.Open, FileAccess.ReadWrite))
                written.Flush(flushToDisk: true);
            File.Move(part, path);
            return new FileInfo(path).Length;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw StorageFault.NoPlace(path, fault);
        }
    }

    /// <summary>
    /// Takes the samples and scan records of runs away for good, but for the seconds around every trip: what happened there is asked
    /// when everything else has been forgotten. Header, events, figures, remarks, tags and files stay. A run without an end is left
    /// alone: it may still be recorded, and its samples are all there is of it.
    /// </summary>
    /// <returns>The runs that were pruned now.</returns>
    public IReadOnlyList<string> Prune(IReadOnlyList<string> runs, DateTimeOffset now)
    {
        List<string> pruned = [];
        _database.Run("begin immediate");
        try
        {
            foreach (string run in runs)
            {
                long number = NumberOf(run);
                if (_database.Number("update run set pruned_at = $2 where id = $1 and outcome is not null and pruned_at is null returning 1", number, WallTime.Write(now)) != 1)
                    continue;
                _database.Run(SamplesAwayFromTrips, number, EventNames.Trip, KeptAroundTrip.Ticks);
                _database.Run(ScansAwayFromTrips, number, EventNames.Trip, KeptAroundTrip.Ticks);
                pruned.Add(run);
            }

            _database.Run("commit");
        }
        catch
        {
            if (_database.IsInTransaction)
                _database.Run("rollback");
            throw;
        }

        return pruned;
    }

    /// <summary>Gives the space of what was pruned back to the disk. Needs as much free space as the logbook is large, for a while.</summary>
    public void Shrink()
    {
        _database.Run("vacuum");
        _database.Run("pragma wal_checkpoint(truncate)");
    }

    /// <summary>When the samples of a run were taken away; null where they are still there.</summary>
    public DateTimeOffset? PrunedAt(string run) =>
        ReadAll(_database.Query("select pruned_at from run where id = $1 and pruned_at is not null", NumberOf(run)), row => WallTime.Read(row.Text(0))) is [var at] ? at : null;

    /// <summary>Bytes of samples and scan records that a run takes.</summary>
    public long BlockBytes(string run) => _database.Number(
        "select coalesce((select sum(length(data)) from sample_block where run = $1), 0) + coalesce((select sum(length(data)) from scan_block where run = $1), 0)", NumberOf(run));
}
