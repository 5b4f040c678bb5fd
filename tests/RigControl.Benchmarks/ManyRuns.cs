using System.Diagnostics;
using RigControl.Cli.Comparing;
using RigControl.Cli.Output;
using RigControl.Cli.Runs;
using RigControl.Logbook;
using RigControl.Model.Records;

namespace RigControl.Benchmarks;

/// <summary>
/// A logbook of ten thousand runs, each of three repeats and seven figures, of eight articles: how long a person waits for a
/// list, a run, a comparison of fifty and a trend in a warm process.
/// </summary>
internal static class ManyRuns
{
    /// <summary>Builds such a logbook as a file: <c>--build-logbook FILE RUNS</c>.</summary>
    public const string Option = "--build-logbook";

    private const int Count = 10_000;
    private const int Articles = 8;
    private static readonly (string Name, string Unit, double Value)[] Names =
    [
        ("spin-up-time", "s", 1.99), ("steady-speed", "rpm", 7400), ("tip-speed", "m/s", 34.9), ("stored-energy", "J", 54.7),
        ("peak-current", "A", 5.5), ("charge-used", "Ah", 0.011), ("coast-down-time", "s", 10.6),
    ];

    public static int Build(string file, int count)
    {
        using LogbookFile logbook = LogbookFile.Open(file);
        Random random = new(7);
        for (int i = 0; i < count; i++)
        {
            RunHeader header = Header($"r{i:d5}", new DateTimeOffset(2031, 1, 1, 0, 0, 0, TimeSpan.Zero).AddMinutes(20 * i)) with { Article = new DocumentCopy($"disc-{i % Articles}", "article: disc\n") };
            using IRunRecorder recorder = logbook.Begin(header);
            recorder.Finish(new RunEnd(RunOutcome.Completed, header.StartedAt.AddMinutes(2), null), [.. Enumerable.Range(1, 3).SelectMany(repeat => Figures(random, repeat))]);
        }

        return 0;
    }

    private static IEnumerable<Figure> Figures(Random random, int repeat) => Names.Select(n =>
    {
        double value = n.Value * (1 + 0.004 * (random.NextDouble() + random.NextDouble() + random.NextDouble() - 1.5));
        return new Figure(n.Name, value, n.Unit, n.Value * 0.002, (value * 0.996, value * 1.004), repeat, "as simulated", null)
        {
            Budget = [new Contribution("scatter of the readings", n.Value * 0.0018, 0.81), new Contribution("moment of the demand", n.Value * 0.00087, 0.19)],
        };
    });

    public static IEnumerable<Row> Measure()
    {
        using Scratch scratch = new();
        Build(scratch.File, Count);
        using LogbookFile book = LogbookFile.Open(scratch.File);
        double bare = Best(() => Bare(scratch.File));
        string reference = $"counting every figure by a bare query: {bare:0.0} ms";
        string[] fifty = [string.Join('+', Enumerable.Range(0, 25).Select(i => $"r{i * Articles:d5}")), string.Join('+', Enumerable.Range(25, 25).Select(i => $"r{i * Articles:d5}"))];
        (string What, Action Act)[] measured =
        [
            ("listing 10,000 runs", () => JsonText.Of(book.Runs().Select(r => new { run = r.Run, outcome = OutcomeWords.Of(r), startedAt = r.StartedAt }))),
            ("showing one of 10,000 runs", () => JsonText.Of(RunDocument.Of(RunRecord.Read(book, "r05000")))),
            ("comparing 50 of 10,000 runs", () => JsonText.Of(ComparisonDocument.Of(RunComparison.Of(book, [.. fifty.Select(f => RunGroup.Read(book, f))])))),
            ("trend over 1,250 of 10,000 runs", () => JsonText.Of(TrendDocument.Of(RunTrend.Read(book, "spin-up-time", "disc-3")))),
        ];
        foreach ((string what, Action act) in measured)
        {
            double time = Best(act);
            yield return new Row(what, $"{time:0.0} ms", reference, $"{time / bare:0.00}");
        }
    }

    private static double Best(Action act)
    {
        double best = double.PositiveInfinity;
        for (int i = 0; i < 12; i++)
        {
            long began = Stopwatch.GetTimestamp();
            act();
            best = Math.Min(best, Stopwatch.GetElapsedTime(began).TotalMilliseconds);
        }

        return best;
    }

    private static void Bare(string file)
    {
        using Microsoft.Data.Sqlite.SqliteConnection connection = new($"Data Source={file};Pooling=False;Mode=ReadOnly");
        connection.Open();
        using Microsoft.Data.Sqlite.SqliteCommand command = new("select count(*), sum(value), max(length(method)) from figure", connection);
        command.ExecuteScalar();
    }

    public static RunHeader Header(string run, DateTimeOffset startedAt) => new()
    {
        Run = run, StartedAt = startedAt, Simulated = true, Seed = 1, Operator = "scripted", Software = "benchmark",
        Procedure = new("enclosed-spin-up", "procedure: enclosed-spin-up\n"), Rig = new("bench", "rig: bench\n"), Article = new("disc-180", "article: disc-180\n"),
        Plugins = [], Interlocks = [], Channels = [], Devices = [new("bench", "simulated-rig", true, new Dictionary<string, string>())],
    };
}
