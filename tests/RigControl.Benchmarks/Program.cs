using RigControl.Benchmarks;

// dotnet run -c Release --project tests/RigControl.Benchmarks -- [figures]: the figures alone.
List<Row> rows = args.Contains("figures") ? [.. Figures.Measure()] : [.. IdleScan.Measure(), .. EndToEnd.Measure(), .. Figures.Measure()];
Console.WriteLine("| what | measured | reference in the same run | ratio |");
Console.WriteLine("|---|---|---|---|");
foreach (Row row in rows)
    Console.WriteLine($"| {row.What} | {row.Measured} | {row.Reference} | {row.Ratio} |");
