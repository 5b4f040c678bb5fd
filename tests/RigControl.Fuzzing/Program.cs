using System.Diagnostics;
using System.Globalization;
using RigControl.Fuzzing;

// dotnet run -c Release --project tests/RigControl.Fuzzing -- [MINUTES] [FIRST-SEED] [TARGET]
double minutes = 1;
int first = 1;
if ((args.Length > 0 && !double.TryParse(args[0], CultureInfo.InvariantCulture, out minutes))
    || (args.Length > 1 && !int.TryParse(args[1], CultureInfo.InvariantCulture, out first)) || args.Length > 3
    || (args.Length > 2 && AllTargets.All.All(t => t.Name != args[2])))
{
    Console.Error.WriteLine($"write the minutes for each target, the first seed and a target, each if wanted: 60 1 {string.Join('|', AllTargets.All.Select(t => t.Name))}");
    return 2;
}

int broken = 0;
foreach (ITarget target in AllTargets.All.Where(t => args.Length < 3 || t.Name == args[2]))
{
    Mutator mutator = new(target.Corpus);
    Stopwatch watch = Stopwatch.StartNew();
    int seed = first - 1;
    long tried = 0;
    Parallel.For(0, Environment.ProcessorCount, _ =>
    {
        while (watch.Elapsed.TotalMinutes < minutes)
        {
            Interlocked.Increment(ref tried);
            if (Fuzzer.Try(target, mutator, Interlocked.Increment(ref seed)) is not { } found)
                continue;
            Interlocked.Increment(ref broken);
            string file = Crashers.Keep(target, Fuzzer.Shorten(target, found.Input));
            Console.WriteLine($"{target.Name}, seed {found.Seed}: {found.What.Split('\n')[0]}; kept as {file}");
        }
    });
    Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
        $"{target.Name}: {tried} spoilt inputs from seed {first}, {tried / watch.Elapsed.TotalSeconds:0} a second, {broken} broke a promise so far"));
}

return broken == 0 ? 0 : 1;
