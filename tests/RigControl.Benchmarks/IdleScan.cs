using System.Diagnostics;
using System.IO.Hashing;
using RigControl.Kernel;
using RigControl.Model.Records;
using RigControl.Model.Signals;
using RigControl.Runtime.Rigs;

namespace RigControl.Benchmarks;

/// <summary>One scan of the sample rig with the rig idle: fold of a full set of samples apart, scan alone, and what it allocates.</summary>
internal static class IdleScan
{
    private const int Scans = 200_000;
    private const int Rounds = 7;

    public static IEnumerable<Row> Measure()
    {
        using AssembledRig rig = SampleRig.Assemble(SampleRig.Documents());
        Bench bench = new(rig.Configuration);
        bench.Run(Scans);
        (double scan, double fold, long bytes) = (double.MaxValue, double.MaxValue, 0);
        double hash = double.MaxValue;
        for (int i = 0; i < Rounds; i++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            scan = Math.Min(scan, bench.Run(Scans));
            bytes = Math.Max(bytes, GC.GetAllocatedBytesForCurrentThread() - before);
            fold = Math.Min(fold, bench.Fold(Scans));
            hash = Math.Min(hash, HashOfOneKibibyte());
        }

        string reference = $"XxHash3 of 1 KiB: {hash:0.000} us";
        string size = $"{rig.Configuration.ChannelList.Length} channels, {rig.Configuration.InterlockCount} interlocks";
        yield return new Row($"idle scan, {size}", $"{scan:0.000} us, {(double)bytes / Scans:0.###} bytes a scan", reference, $"{scan / hash:0.0}");
        yield return new Row($"fold of one sample in every channel, {size}", $"{fold:0.000} us", reference, $"{fold / hash:0.0}");
    }

    private static double HashOfOneKibibyte()
    {
        byte[] data = new byte[1024];
        long began = Stopwatch.GetTimestamp();
        ulong sum = 0;
        for (int i = 0; i < Scans; i++)
        {
            data[i & 1023] = (byte)i;
            sum += XxHash3.HashToUInt64(data);
        }

        double time = Stopwatch.GetElapsedTime(began).TotalMicroseconds / Scans;
        return sum == 42 ? 0 : time;
    }

    private sealed class Bench(Configuration configuration)
    {
        private KernelState _state;
        private FoldState _fold;
        private InputImage _image;
        private ScanRecord _record;
        private TimeSpan _now;

        public double Run(int scans)
        {
            long began = Stopwatch.GetTimestamp();
            for (int i = 0; i < scans; i++)
            {
                _now += configuration.ScanPeriod;
                ScanKernel.Scan(configuration, ref _state, new ScanInput(_now, _image, []), ref _record);
            }

            return Stopwatch.GetElapsedTime(began).TotalMicroseconds / scans;
        }

        public double Fold(int scans)
        {
            ReadOnlySpan<Channel> channels = configuration.ChannelList;
            long began = Stopwatch.GetTimestamp();
            for (int i = 0; i < scans; i++)
            {
                _now += configuration.ScanPeriod;
                for (int c = 0; c < channels.Length; c++)
                    Kernel.Fold.Add(channels, ref _fold, new Sample((ushort)c, Quality.Good, _now, 1));
                Kernel.Fold.Close(channels, ref _fold, _now, ref _image);
            }

            return Stopwatch.GetElapsedTime(began).TotalMicroseconds / scans;
        }
    }
}
