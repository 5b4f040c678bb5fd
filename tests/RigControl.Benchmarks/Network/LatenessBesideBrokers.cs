using RigControl.Model.Records;
using RigControl.Model.Signals;

namespace RigControl.Benchmarks.Network;

/// <summary>How late the scan starts at 1 kHz with brokers in every condition, against a run without telemetry in the same round.</summary>
internal static class LatenessBesideBrokers
{
    private const int Rounds = 5;
    private static readonly TimeSpan Settling = TimeSpan.FromSeconds(1.5);
    private static readonly TimeSpan Length = TimeSpan.FromSeconds(4);

    private static readonly string[] Conditions = ["no telemetry", "healthy", "absent", "dead", "slow"];

    public static IEnumerable<Row> Measure()
    {
        Dictionary<string, List<double>> late = Conditions.ToDictionary(c => c, _ => new List<double>());
        // In turns, so that whatever else the machine does falls on all of them.
        for (int round = 0; round < Rounds; round++)
        {
            foreach (string condition in Conditions)
                late[condition].AddRange(Once(condition));
        }

        (double median, double high) = Of(late[Conditions[0]]);
        foreach (string condition in Conditions.Skip(1))
        {
            (double m, double h) = Of(late[condition]);
            yield return new Row(
                $"lateness of the scan at 1 kHz, broker {condition}, {late[condition].Count} scans", $"median {m:0.000} ms, 99th percentile {h:0.000} ms",
                $"no telemetry: median {median:0.000} ms, 99th percentile {high:0.000} ms", $"{m / median:0.00}, {h / high:0.00}");
        }
    }

    private static List<double> Once(string condition)
    {
        int channel = -1;
        bool measuring = false;
        double[] seen = new double[100_000];
        int count = 0;
        using Broker? broker = condition is "no telemetry" or "absent" ? null : new Broker();
        broker?.Read();
        int? port = condition == "no telemetry" ? null : broker?.Port ?? Broker.FreePort();
        using Scanning scanning = new(port, (in ScanRecord _, in InputImage image) =>
        {
            if (Volatile.Read(ref measuring) && count < seen.Length)
                seen[count++] = image[channel].Maximum;
        });
        channel = scanning.Channels.Single(c => c.Name == ChannelNames.ScanLateness).Index;
        Thread.Sleep(Settling);
        if (broker is not null && !scanning.IsLinked)
            throw new InvalidOperationException("the broker was not reached in time; the machine is too busy to measure on");
        if (condition == "dead")
            broker!.Kill();
        if (condition == "slow")
            broker!.Freeze();
        Volatile.Write(ref measuring, true);
        Thread.Sleep(Length);
        Volatile.Write(ref measuring, false);
        return [.. seen.AsSpan(0, count)];
    }

    private static (double Median, double High) Of(List<double> values)
    {
        values.Sort();
        return (values[values.Count / 2], values[values.Count * 99 / 100]);
    }
}
