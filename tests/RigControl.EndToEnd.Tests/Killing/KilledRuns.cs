using System.Diagnostics;
using System.Globalization;

namespace RigControl.EndToEnd.Tests.Killing;

/// <summary>Kills whole runs on the real clock at random moments.</summary>
internal static class KilledRuns
{
    public const string Option = "--kill";

    /// <summary>Id of the device that says its samples.</summary>
    public const string Witness = "witness";

    /// <summary>What is told when the rig's interlock trips, as it does shortly before every other kill.</summary>
    public const string Trip = "the interlock trouble itself failed";

    /// <summary>Record time that a kill may cost at most.</summary>
    public static readonly TimeSpan Bound = TimeSpan.FromMilliseconds(250);

    // Seconds of session time: into the warning at the least, into the spin-up at the most.
    private const double Earliest = 0.05;
    private const double Latest = 4.5;

    // A trip comes so many seconds before the kill at the most: a rig at rest ends its run a second after one.
    private const double LongestAfterTrip = 0.6;

    /// <summary>Kills so many runs and prints what was found.</summary>
    /// <returns>0 where every file was sound, no trip was lost and no more than the bound was missing.</returns>
    public static int Run(int kills, int seed)
    {
        using Tool tool = new();
        Random random = new(seed);
        string plugins = tool.PluginsWith("RigControl.Misbehaving");
        List<KilledRun> all = [];
        while (all.Count < kills)
        {
            if (Once(tool, plugins, random) is { } killed)
                all.Add(killed);
        }

        double[] missing = [.. all.Where(k => k.Missing is not null).Select(k => k.Missing!.Value.TotalMilliseconds).Order()];
        (ToldEvent Event, TimeSpan Age)[] lost = [.. all.SelectMany(k => k.Lost)];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"""
            {kills} runs killed from seed {seed}: {all.Sum(k => k.Said.Count)} samples said, {all.Sum(k => k.Kept.Count)} kept, each as it was said in {all.Count(k => k.IsPrefix)} runs
            missing at the end: median {missing[missing.Length / 2]:0} ms, 95 % below {missing[(int)(0.95 * (missing.Length - 1))]:0} ms, longest {missing[^1]:0} ms, {missing.Count(m => m > Bound.TotalMilliseconds)} times above {Bound.TotalMilliseconds:0} ms; {kills - missing.Length} killed before the first scan
            {all.Sum(k => k.Told.Count)} events told, {all.Sum(k => k.TripsTold)} of them trips; not kept: {lost.Length}, the oldest told {lost.Select(l => l.Age.TotalMilliseconds).DefaultIfEmpty(0).Max():0} ms before the last sample
            {all.Sum(k => k.Damage.Count)} damages
            """));
        foreach (KilledRun late in all.Where(k => k.Missing > Bound))
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {late.Missing!.Value.TotalMilliseconds:0} ms missing: killed at {late.Said[^1].At.TotalSeconds:0.000} s, {late.Kept.Count} samples kept, first scan at {late.FirstScan?.TotalSeconds:0.000} s"));
        foreach ((ToldEvent happened, TimeSpan age) in lost)
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  not kept, {age.TotalMilliseconds:0} ms old: {happened.At} s {happened.Text}"));
        return all.All(k => k.IsPrefix && k.Damage.Count == 0) && missing[^1] <= Bound.TotalMilliseconds && lost.Length == 0 ? 0 : 1;
    }

    /// <summary>Starts, kills and reads one run; null where it ended before it was killed.</summary>
    public static KilledRun? Once(Tool tool, string plugins, Random random)
    {
        double kill = Earliest + (Latest - Earliest) * random.NextDouble();
        double? trip = random.Next(2) == 0 ? Math.Max(0, kill - LongestAfterTrip * random.NextDouble()) : null;
        string logbook = Path.Combine(tool.Folder, "killed.sqlite");
        foreach (string old in Directory.GetFiles(tool.Folder, "killed.sqlite*"))
            File.Delete(old);
        using Process process = tool.Begin(
            "run", Procedure(tool), "--rig", Rig(tool, trip), "--article", "procedures/disc-180.article.yaml",
            "--plugins", plugins, "--operator", "scripted", "--logbook", logbook);
        return KilledRun.Of(process, TimeSpan.FromSeconds(kill), random.Next(200_000), logbook);
    }

    private static string Rig(Tool tool, double? trip)
    {
        string text = File.ReadAllText(Path.Combine(Tool.Root, "procedures", "simulated.rig.yaml"))
            .Replace("devices:\n", $"devices:\n  - {{ id: {Witness}, plugin: witness-device }}\n", StringComparison.Ordinal);
        if (trip is { } at)
            text = text.Replace("interlocks:\n", string.Create(CultureInfo.InvariantCulture, $"interlocks:\n  - {{ id: trouble, plugin: misbehaving-interlock, options: {{ mischief: throws, from: {at:0.000} s }} }}\n"), StringComparison.Ordinal);
        return tool.Write("killed.rig.yaml", text);
    }

    private static string Procedure(Tool tool) => tool.Write("killed.yaml", """
        procedure: to-be-killed
        requires: []
        steps:
          - arm: { within: 10 s }
          - spin-up: { throttle: 20 %, ramp: 0.5 s, until: { channel: rotor.speed, above: 300 rpm }, timeout: 8 s }
          - hold: { for: 10 s }
          - coast-down: { until: { channel: rotor.speed, below: 60 rpm }, timeout: 60 s }
        """);
}
