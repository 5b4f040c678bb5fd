using System.Globalization;
using RigControl.Benchmarks;
using RigControl.Benchmarks.Network;

if (args is [PublisherCost.Option, var port, var how, var folder])
    return PublisherCost.Publish(port, how, folder);

if (args is [ManyRuns.Option, var logbook, var runs])
    return ManyRuns.Build(logbook, int.Parse(runs, CultureInfo.InvariantCulture));

// dotnet run -c Release --project tests/RigControl.Benchmarks -- [NAME…] [--minutes N]
// The real clock's ten minutes are measured only when asked for by name, or with --minutes; what needs a broker, with the name telemetry.
double minutes = 10;
int at = Array.IndexOf(args, "--minutes");
bool timed = at >= 0 && at + 1 < args.Length && double.TryParse(args[at + 1], CultureInfo.InvariantCulture, out minutes);
string[] overNetwork = ["lateness", "publisher", "stop"];
List<string> asked = [.. args.Where((_, i) => at < 0 || (i != at && i != at + 1)).SelectMany(a => a == "telemetry" ? overNetwork : [a])];
Dictionary<string, Func<IEnumerable<Row>>> all = new()
{
    ["scan"] = IdleScan.Measure,
    ["end-to-end"] = EndToEnd.Measure,
    ["figures"] = Figures.Measure,
    ["rehearsal"] = Rehearsing.Measure,
    ["recording"] = Recording.Measure,
    ["minute"] = MinuteRecording.Measure,
    ["many-runs"] = ManyRuns.Measure,
    ["recorded-runs"] = RecordedRuns.Measure,
    ["start"] = StartUp.Measure,
    ["reaction"] = () => Reaction.Measure(20),
    ["real-run"] = () => RealRun.Measure(minutes * 60),
    ["lateness"] = LatenessBesideBrokers.Measure,
    ["publisher"] = PublisherCost.Measure,
    ["stop"] = StopOverNetwork.Measure,
};
if ((at >= 0 && !timed) || asked.Any(a => !all.ContainsKey(a)))
{
    Console.Error.WriteLine($"write what to measure, if not everything but the real run, and for how long that one: {string.Join(' ', all.Keys)} --minutes 10");
    return 2;
}

if (asked.Count == 0)
    asked = [.. all.Keys.Except(overNetwork).Where(k => timed || k != "real-run")];
Console.WriteLine("| what | measured | reference in the same run | ratio |");
Console.WriteLine("|---|---|---|---|");
foreach (Row row in asked.SelectMany(a => all[a]()))
    Console.WriteLine($"| {row.What} | {row.Measured} | {row.Reference} | {row.Ratio} |");
return 0;
