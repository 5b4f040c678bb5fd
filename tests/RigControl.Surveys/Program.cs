using System.Diagnostics;
using System.Globalization;
using RigControl.Surveys;

// dotnet run -c Release --project tests/RigControl.Surveys -- [RUNS] [FIRST] [--misses] [--evidence]
string[] numbers = [.. args.Where(a => !a.StartsWith("--", StringComparison.Ordinal))];
if (args.Except(numbers).Any(a => a is not ("--evidence" or "--misses")) || numbers.Length > 2 || !numbers.All(n => int.TryParse(n, NumberStyles.None, CultureInfo.InvariantCulture, out _)))
{
    Console.Error.WriteLine("write the number of runs, the first seed, --misses and --evidence, each if wanted: 2000 1 --evidence");
    return 2;
}

int runs = numbers.Length > 0 ? int.Parse(numbers[0], CultureInfo.InvariantCulture) : 2000;
ulong first = numbers.Length > 1 ? ulong.Parse(numbers[1], CultureInfo.InvariantCulture) : 1;
Stopwatch watch = Stopwatch.StartNew();
IReadOnlyList<Tally> tallies = Survey.Of(first, runs, args.Contains("--misses") ? Console.WriteLine : null);
foreach (string line in CoveragePage.Table(tallies))
    Console.WriteLine(line);
Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"took {watch.Elapsed.TotalSeconds:0} s"));
if (args.Contains("--evidence"))
    Console.WriteLine("wrote " + CoveragePage.Write(tallies, runs, first, [.. Others(first).Select(f => (f, Survey.Of(f, runs, null)))]));
return 0;

// Rows that share no run with the first: an estimator that was made to suit one of them would show in the others.
static ulong[] Others(ulong first) => [first + 100_000, first + 200_000];
