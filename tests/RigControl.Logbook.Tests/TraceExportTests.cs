using System.Globalization;
using RigControl.Logbook.Tests.Support;
using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Logbook.Tests;

/// <summary>A run as a trace that any other program reads.</summary>
public sealed class TraceExportTests : IDisposable
{
    private const string Head = "time [s],rotor.speed [rpm],battery.voltage [V],recorder.backlog [%]\r\n";

    private readonly TemporaryFolder _folder = new();
    private readonly LogbookFile _logbook;

    public TraceExportTests() => _logbook = LogbookFile.Open(_folder.Logbook);

    public void Dispose()
    {
        _logbook.Dispose();
        _folder.Dispose();
    }

    [Fact]
    public void A_run_without_samples_is_a_head_without_rows() => Assert.Equal(Head, Csv());

    [Fact]
    public void Samples_of_one_time_share_a_row_across_devices_and_empty_cells_mean_no_sample() => Assert.Equal(
        Head + "0.001,1.5,16.8,\r\n0.0020005,,,0.25\r\n0.003,3,,0.5\r\n",
        Csv([At(0, 10_000, 1.5), At(1, 10_000, 16.8), At(0, 30_000, 3)], [At(2, 20_005, 0.25), At(2, 30_000, 0.5)]));

    [Fact]
    public void A_bad_sample_is_an_empty_cell_in_a_row_of_its_time() => Assert.Equal(
        Head + "0.001,,16.8,\r\n0.002,,,\r\n",
        Csv([At(0, 10_000, 1.5) with { Quality = Quality.Bad }, At(1, 10_000, 16.8), At(0, 20_000, double.NaN) with { Quality = Quality.Bad }], []));

    [Fact]
    public void Samples_that_came_out_of_order_stand_in_the_order_of_their_times() => Assert.Equal(
        Head + "0.001,1,,\r\n0.002,2,,9\r\n0.003,3,,\r\n",
        Csv([At(0, 30_000, 3), At(0, 10_000, 1), At(0, 20_000, 2)], [At(2, 20_000, 9)]));

    [Fact]
    public void Of_two_samples_at_one_time_the_later_one_counts() => Assert.Equal(Head + "0.001,2,,\r\n", Csv([At(0, 10_000, 1), At(0, 10_000, 2)], []));

    [Fact]
    public void A_number_has_the_fewest_digits_that_give_the_same_number() => Assert.Equal(
        Head + "0.0000001,0.30000000000000004,0.3,1E-300\r\n", Csv([At(0, 1, 0.1 + 0.2), At(1, 1, 0.3)], [At(2, 1, 1e-300)]));

    [Fact]
    public void Time_may_be_counted_from_a_moment_of_ones_own()
    {
        Record([At(0, 50_000, 1)], []);
        Assert.Equal(Head + "0.004,1,,\r\n", Written(TimeSpan.FromTicks(10_000)));
    }

    [Fact]
    public void A_channel_of_which_the_header_says_nothing_is_damage() => Assert.Throws<StorageException>(() => Csv([At(9, 1, 1)], []));

    [Fact]
    public void Any_samples_make_a_trace_whose_time_rises_strictly_and_which_holds_them_all() => Seeds.Each(60, random =>
    {
        Sample[][] chunks = [.. Enumerable.Range(0, 8).Select(chunk => Shuffled(random, chunk))];
        string run = $"r{random.Next()}";
        using (IRunRecorder recorder = _logbook.Begin(RunMaker.Header(run)))
        {
            RecordChunk chunk = new(RunMaker.Devices);
            foreach (Sample[] samples in chunks)
            {
                chunk.Clear();
                chunk.Devices[0].Add(samples.AsSpan(0, samples.Length / 2));
                chunk.Devices[1].Add(samples.AsSpan(samples.Length / 2));
                recorder.Append(chunk);
            }
        }
        using StringWriter writer = new();
        TraceExport.WriteCsv(_logbook, run, writer);
        CheckTrace(writer.ToString(), chunks);
    });

    /// <summary>Times around the chunk's own, so far out of order that neighbouring chunks overlap.</summary>
    private static Sample[] Shuffled(Random random, int chunk) =>
        [.. Enumerable.Range(0, 40).Select(_ => At((ushort)random.Next(3), (chunk * 30 + random.Next(100)) * 10_000L, random.Next(1000)))];

    private static void CheckTrace(string csv, Sample[][] chunks)
    {
        string[][] rows = [.. csv.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(row => row.Split(','))];
        double[] times = [.. rows.Select(row => double.Parse(row[0], CultureInfo.InvariantCulture))];
        Assert.True(times.Zip(times.Skip(1)).All(pair => pair.First < pair.Second), "the time does not rise strictly");
        HashSet<(double, int)> due = [.. chunks.SelectMany(chunk => chunk).Select(sample => (sample.At.TotalSeconds, (int)sample.Channel))];
        HashSet<(double, int)> written = [.. rows.SelectMany((row, i) => Enumerable.Range(0, 3).Where(c => row[c + 1].Length > 0).Select(c => (times[i], c)))];
        Assert.Equal(due.Order(), written.Order());
    }

    private static Sample At(ushort channel, long ticks, double value) => new(channel, Quality.Good, TimeSpan.FromTicks(ticks), value);

    private string Csv(Sample[]? first = null, Sample[]? second = null)
    {
        Record(first ?? [], second ?? []);
        return Written(TimeSpan.Zero);
    }

    private void Record(Sample[] first, Sample[] second)
    {
        using IRunRecorder recorder = _logbook.Begin(RunMaker.Header("a1"));
        RecordChunk chunk = new(RunMaker.Devices);
        chunk.Devices[0].Add(first);
        chunk.Devices[1].Add(second);
        recorder.Append(chunk);
        recorder.Finish(RunMaker.End(RunOutcome.Completed), []);
    }

    private string Written(TimeSpan origin)
    {
        using StringWriter writer = new();
        TraceExport.WriteCsv(_logbook, "a1", writer, origin);
        return writer.ToString();
    }
}
