using RigControl.Benchmarks;
using RigControl.Benchmarks.Network;

if (args is [PublisherCost.Option, var port, var how, var folder])
    return PublisherCost.Publish(port, how, folder);

// The ones over a network take minutes and need a broker: they are asked for by name.
IEnumerable<Row> rows = args switch
{
    ["telemetry"] => LatenessBesideBrokers.Measure().Concat(PublisherCost.Measure()).Concat(StopOverNetwork.Measure()),
    ["lateness"] => LatenessBesideBrokers.Measure(),
    ["publisher"] => PublisherCost.Measure(),
    ["stop"] => StopOverNetwork.Measure(),
    _ => IdleScan.Measure().Concat(EndToEnd.Measure()),
};
Console.WriteLine("| what | measured | reference in the same run | ratio |");
Console.WriteLine("|---|---|---|---|");
foreach (Row row in rows)
    Console.WriteLine($"| {row.What} | {row.Measured} | {row.Reference} | {row.Ratio} |");
return 0;
