using RigControl.Benchmarks;

List<Row> rows = [.. IdleScan.Measure(), .. EndToEnd.Measure()];
Console.WriteLine("| what | measured | reference in the same run | ratio |");
Console.WriteLine("|---|---|---|---|");
foreach (Row row in rows)
    Console.WriteLine($"| {row.What} | {row.Measured} | {row.Reference} | {row.Ratio} |");
