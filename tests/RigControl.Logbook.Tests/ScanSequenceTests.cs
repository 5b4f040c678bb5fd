using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;

namespace RigControl.Logbook.Tests;

/// <summary>Reading a long record is cheap and can be left at any time.</summary>
public sealed class ScanSequenceTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly LogbookFile _logbook;

    public ScanSequenceTests() => _logbook = LogbookFile.Open(_folder.Logbook);

    public void Dispose()
    {
        _logbook.Dispose();
        _folder.Dispose();
    }

    [Fact]
    public void A_record_read_allocates_nothing_of_its_own()
    {
        RecordChunk chunk = new(RunMaker.Devices);
        ScanMaker.Idle(chunk.Scans, first: 1, interlocks: 10, devices: 2, samplesPerDevice: 3);
        chunk.ScanCount = RecordChunk.ScanCapacity;
        using (IRunRecorder recorder = _logbook.Begin(RunMaker.Header("a1")))
            recorder.Append(chunk);
        using ScanSequence.Enumerator scans = _logbook.Scans("a1").GetEnumerator();
        Assert.True(scans.MoveNext());
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 1; i < RecordChunk.ScanCapacity; i++)
            Assert.True(scans.MoveNext());
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.Equal(RecordChunk.ScanCapacity, scans.Current.Scan);
        Assert.False(scans.MoveNext());
    }

    [Fact]
    public void Reading_can_be_left_in_the_middle_and_begun_again()
    {
        RunMaker.Record(_logbook, "a1", chunks: 5);
        for (int time = 0; time < 3; time++)
        {
            foreach (ref readonly ScanRecord scan in _logbook.Scans("a1"))
            {
                if (scan.Scan == 33)
                    break;
            }
            Assert.Equal(10, _logbook.Samples("a1", 0).Take(10).Count());
        }
        RunMaker.Record(_logbook, "b2", chunks: 1);
        Recorded.Check(_logbook, "a1", chunks: 5);
    }

    [Fact]
    public void A_reader_sees_the_run_as_it_was_when_it_began_to_read()
    {
        using IRunRecorder recorder = _logbook.Begin(RunMaker.Header("a1"));
        RunMaker.Append(recorder, 0, 2);
        using ScanSequence.Enumerator scans = _logbook.Scans("a1").GetEnumerator();
        Assert.True(scans.MoveNext());
        RunMaker.Append(recorder, 2, 3);
        int count = 1;
        while (scans.MoveNext())
            count++;
        Assert.Equal(2 * RunMaker.ScansPerChunk, count);
        Assert.Equal(5, Recorded.CountChunks(_logbook, "a1"));
    }

    [Fact]
    public void Every_receipt_and_cause_of_a_recorded_scan_can_be_read()
    {
        RecordChunk chunk = new(RunMaker.Devices);
        ScanRecord full = ScanMaker.Full(new Random(6));
        chunk.Scans[0] = full;
        chunk.ScanCount = 1;
        using (IRunRecorder recorder = _logbook.Begin(RunMaker.Header("a1")))
            recorder.Append(chunk);
        int count = 0;
        foreach (ref readonly ScanRecord scan in _logbook.Scans("a1"))
        {
            Assert.Equal(Flat.Of(full), Flat.Of(scan));
            count++;
        }
        Assert.Equal(1, count);
    }
}
