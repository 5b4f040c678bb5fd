using System.Diagnostics;
using System.Globalization;
using RigControl.Campaigns;

// dotnet run -c Release --project tests/RigControl.Campaigns -- [SEEDS] [FIRST]
long seeds = args.Length > 0 ? long.Parse(args[0], CultureInfo.InvariantCulture) : 2000;
ulong first = args.Length > 1 ? ulong.Parse(args[1], CultureInfo.InvariantCulture) : 1;
Stopwatch watch = Stopwatch.StartNew();
Summary summary = Campaign.Run(first, seeds, broken => Console.WriteLine(broken));
Console.WriteLine(summary.ToString());
Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"took {watch.Elapsed.TotalSeconds:0} s"));
return summary.Violations == 0 ? 0 : 1;
