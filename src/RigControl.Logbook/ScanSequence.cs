using RigControl.Logbook.Blocks;
using RigControl.Logbook.Storage;
using RigControl.Model.Records;

namespace RigControl.Logbook;

/// <summary>
/// A run's scan records in order. <c>foreach (ref readonly ScanRecord scan in scans)</c> shows each in the same place, so
/// that nothing is allocated per record; who wants to keep one copies it.
/// <para>
/// Everything in a record is exact, but of the demands only action and reason are exact in every scan. Value, limit, margin,
/// channel and time of a demand are those of the scan in which its action or reason last changed, or of a somewhat later one
/// at which the record was divided. A replay computes them anew from the samples.
/// </para>
/// </summary>
public sealed class ScanSequence
{
    private readonly Database _database;
    private readonly long _run;

    private readonly string _order;

    /// <param name="lastBlockOnly">Only the stretch that was written last: how a run ended is asked more often than all of it.</param>
    internal ScanSequence(Database database, long run, bool lastBlockOnly = false)
    {
        _database = database;
        _run = run;
        _order = lastBlockOnly ? "desc limit 1" : "";
    }

    public Enumerator GetEnumerator() => new(_database, _run, _order);

    /// <summary>Stands on one scan at a time. The logbook may be written meanwhile; later scans do not show.</summary>
    public sealed class Enumerator : IDisposable
    {
        private readonly ScanDecoder _decoder = new();
        private readonly string _path;
        private readonly Rows _blocks;
        private ScanRecord _current;

        internal Enumerator(Database database, long run, string order)
        {
            _path = database.Path;
            _blocks = database.Query($"select data from scan_block where run = $1 order by first_scan {order}", run);
        }

        public ref readonly ScanRecord Current => ref _current;

        /// <exception cref="StorageException">The record is damaged.</exception>
        public bool MoveNext()
        {
            try
            {
                while (!_decoder.Next(ref _current))
                {
                    if (!_blocks.Next())
                        return false;
                    _decoder.Start(_blocks.Bytes(0), ref _current);
                }
                return true;
            }
            catch (Exception fault) when (fault is InvalidDataException or InvalidCastException)
            {
                throw StorageFault.Damaged(_path, fault);
            }
        }

        public void Dispose() => _blocks.Dispose();
    }
}
