using System.Diagnostics;
using System.Globalization;

namespace RigControl.Benchmarks;

/// <summary>From the start of the program to its first scan, told on standard error; against a program of the same runtime that only says its version.</summary>
internal static class StartUp
{
    private const int Rounds = 7;

    public static IEnumerable<Row> Measure()
    {
        string program = Path.Combine(AppContext.BaseDirectory, "rigcontrol.dll");
        string folder = Directory.CreateTempSubdirectory("rigcontrol-benchmark-").FullName;
        try
        {
            string logbook = Path.Combine(folder, "logbook.sqlite");
            Spread ready = new([.. Enumerable.Range(0, Rounds).Select(_ => Time("state    safe-stop", program, "run", "--operator", "scripted", "--logbook", logbook))]);
            Spread version = new([.. Enumerable.Range(0, Rounds).Select(_ => Time(null, program, "--version"))]);
            yield return new Row(
                "start of the host to its first scan", string.Create(CultureInfo.InvariantCulture, $"median {ready.At(0.5):0} ms, longest {ready.Longest:0} ms"),
                string.Create(CultureInfo.InvariantCulture, $"the same program only saying its version: median {version.At(0.5):0} ms"), string.Create(CultureInfo.InvariantCulture, $"{ready.At(0.5) / version.At(0.5):0.0}"));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    // Until the words come on standard error, or the end where there are none; the program is killed then.
    private static double Time(string? until, params string[] arguments)
    {
        ProcessStartInfo start = new("dotnet", arguments) { RedirectStandardError = true, RedirectStandardOutput = true, RedirectStandardInput = true };
        long began = Stopwatch.GetTimestamp();
        using Process process = Process.Start(start)!;
        if (until is null)
        {
            process.WaitForExit();
            return Stopwatch.GetElapsedTime(began).TotalMilliseconds;
        }

        while (process.StandardError.ReadLine() is { } line)
        {
            if (!line.Contains(until, StringComparison.Ordinal))
                continue;
            double time = Stopwatch.GetElapsedTime(began).TotalMilliseconds;
            process.Kill();
            process.WaitForExit();
            return time;
        }

        throw new InvalidOperationException($"the program ended without saying '{until}'");
    }
}
