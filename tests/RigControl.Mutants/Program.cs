using System.Diagnostics;
using System.Globalization;
using RigControl.Mutants.Evidence;
using RigControl.Mutants.Kernel;
using RigControl.Mutants.Planted;
using RigControl.Mutants.Trying;

// dotnet run -c Release --project tests/RigControl.Mutants -- planted [--evidence]
// dotnet run -c Release --project tests/RigControl.Mutants -- kernel [COUNT] [SEED] [--quick] [--resume] [--evidence]
string[] words = [.. args.Where(a => !a.StartsWith("--", StringComparison.Ordinal))];
string command = words.FirstOrDefault() ?? "";
if (command is not ("planted" or "kernel") || args.Except(words).Any(a => a is not ("--evidence" or "--resume" or "--quick"))
    || words.Length > (command == "kernel" ? 3 : 1) || !words.Skip(1).All(w => int.TryParse(w, NumberStyles.None, CultureInfo.InvariantCulture, out _)))
{
    Console.Error.WriteLine("write planted, or kernel with the number of mutants and a seed, and --quick, --resume and --evidence if wanted: kernel 300 1 --evidence");
    return 2;
}

Stopwatch watch = Stopwatch.StartNew();
bool keep = args.Contains("--evidence");
bool good = command == "planted" ? TryPlanted(keep) : TryKernel(Number(1, 300), Number(2, 1), args.Contains("--resume"), args.Contains("--quick"), keep);
Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"took {watch.Elapsed.TotalSeconds:0} s"));
return good ? 0 : 1;

int Number(int place, int otherwise) => words.Length > place ? int.Parse(words[place], CultureInfo.InvariantCulture) : otherwise;

static bool TryPlanted(bool keep)
{
    using Planter planter = new();
    List<(PlantedDefect Defect, Verdict Verdict)> tried = [];
    foreach (PlantedDefect defect in PlantedList.All)
    {
        Verdict verdict = planter.Try(defect);
        tried.Add((defect, verdict));
        Console.WriteLine($"{(verdict.IsCaught ? "caught" : "NOT CAUGHT")}  {defect.File}: {defect.Wrong}\n    {verdict.By}");
    }

    Console.WriteLine($"{tried.Count(t => t.Verdict.IsCaught)} of {tried.Count} caught");
    if (keep)
        Page.Write(PlantedPart.Title, PlantedPart.Text(tried));
    return tried.All(t => t.Verdict.IsCaught);
}

static bool TryKernel(int count, int seed, bool resume, bool quick, bool keep)
{
    int places = new Sample().Places().Count();
    Console.WriteLine($"{count} of {places} places, seed {seed}");
    IReadOnlyList<Tried> tried = new KernelRun(count, seed, resume, quick).Run(t => Console.WriteLine($"{(t.Verdict.IsCaught ? "caught" : "LEFT")}  {t.Mutation}\n    {t.Verdict.By}"));
    Score score = new(tried);
    Console.WriteLine(score);
    foreach (Tried missed in score.Missed)
        Console.WriteLine($"missed: {missed.Mutation}    in: {missed.Mutation.Source}");
    if (keep)
        Page.Write(KernelPart.Title, KernelPart.Text(tried, places, seed, count, quick));
    return score.OfDifferent >= 0.9;
}
