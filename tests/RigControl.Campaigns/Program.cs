using System.Diagnostics;
using System.Globalization;
using RigControl.Campaigns;

// dotnet run -c Release --project tests/RigControl.Campaigns -- [SEEDS] [FIRST] [--evidence]
string[] numbers = [.. args.Where(a => !a.StartsWith("--", StringComparison.Ordinal))];
if (args.Except(numbers).Any(a => a != "--evidence") || numbers.Length > 2 || !numbers.All(n => ulong.TryParse(n, CultureInfo.InvariantCulture, out _)))
{
    Console.Error.WriteLine("write the number of seeds, the first seed and --evidence, each if wanted: 1000000 1 --evidence");
    return 2;
}

long seeds = numbers.Length > 0 ? long.Parse(numbers[0], CultureInfo.InvariantCulture) : 2000;
ulong first = numbers.Length > 1 ? ulong.Parse(numbers[1], CultureInfo.InvariantCulture) : 1;
Stopwatch watch = Stopwatch.StartNew();
Progress progress = new(seeds, watch);
Summary summary = new();
// The page is written after every part, so that a campaign that is broken off leaves what it has shown.
const long part = 50_000;
for (long done = 0; done < seeds; done += part)
{
    Campaign.Run(first + (ulong)done, Math.Min(part, seeds - done), Console.WriteLine, progress.Tell, summary);
    if (args.Contains("--evidence"))
        Console.WriteLine($"{summary.Runs} seeds: wrote {Evidence.Write(summary, first)}");
}

Console.WriteLine(summary.ToString());
Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
    $"took {watch.Elapsed.TotalSeconds:0} s, {seeds / watch.Elapsed.TotalSeconds:0.0} seeds a second on {Environment.ProcessorCount} cores"));
return summary.Violations == 0 ? 0 : 1;
