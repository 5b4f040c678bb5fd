using System.Diagnostics;
using System.Reflection;
using System.Text.Json;

namespace RigControl.Telemetry.Tests.Support;

/// <summary>The program as a user runs it, on the simulated rig, with a logbook and a rig file of its own.</summary>
internal sealed class RigProgram(TemporaryFolder folder)
{
    private static readonly string Root = typeof(RigProgram).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == "RepositoryRoot").Value!;

    private static readonly string Configuration = AppContext.BaseDirectory.Contains("/Release/", StringComparison.Ordinal) ? "Release" : "Debug";

    /// <summary>Spins up and holds until it is stopped, or for an hour.</summary>
    public const string LongHold = """
        procedure: long-hold
        repeat: 1
        requires: [lid-closed, failsafe-confirmed]
        steps:
          - arm: { within: 10 s }
          - spin-up: { throttle: 40 %, ramp: 1 s, until: { channel: rotor.speed, above: 1000 rpm }, timeout: 8 s }
          - hold: { for: 3600 s }
          - coast-down: { until: { channel: rotor.speed, below: 60 rpm }, timeout: 60 s }
        figures: [peak-speed]
        """;

    /// <summary>The same with a hold that ends by itself.</summary>
    public static string ShortHold => LongHold.Replace("3600 s", "4 s", StringComparison.Ordinal);

    /// <summary>A file of the repository.</summary>
    public static string At(string file) => Path.Combine(Root, file);

    /// <summary>Variables of the environment that it gets besides.</summary>
    public Dictionary<string, string> Environment { get; init; } = [];

    public Topics Topics { get; } = new("workshop", "simulated-box");

    /// <summary>The simulated rig's file with a telemetry section, such as <c>{ port: 1883 }</c>.</summary>
    public string RigFile(string telemetry) =>
        folder.Write("published.rig.yaml", File.ReadAllText(Path.Combine(Root, "procedures", "simulated.rig.yaml")) + $"\ntelemetry: {telemetry}\n");

    /// <summary>Begins a run by the scripted operator.</summary>
    public Process Begin(string procedure, string telemetry, string pace) => Start(
        "run", folder.Write("p.yaml", procedure), "--rig", RigFile(telemetry), "--article", Path.Combine(Root, "procedures", "disc-180.article.yaml"),
        "--operator", "scripted", "--pace", pace, "--json");

    public Process Start(params string[] arguments)
    {
        ProcessStartInfo start = new("dotnet", [Path.Combine(Root, "src", "RigControl.Cli", "bin", Configuration, "net10.0", "rigcontrol.dll"), .. arguments])
        {
            RedirectStandardOutput = true, RedirectStandardError = true, RedirectStandardInput = true, WorkingDirectory = Root,
        };
        start.Environment["RIGCONTROL_LOGBOOK"] = folder.At("logbook.sqlite");
        start.Environment["NO_COLOR"] = "1";
        foreach ((string name, string value) in Environment)
            start.Environment[name] = value;
        return Process.Start(start)!;
    }

    /// <summary>Waits for the end; exit code, the document on standard output, and standard error.</summary>
    public static async Task<(int Code, string Output, string Errors)> End(Process process)
    {
        using (process)
        {
            process.StandardInput.Close();
            Task<string> errors = process.StandardError.ReadToEndAsync();
            string output = await process.StandardOutput.ReadToEndAsync();
            await process.WaitForExitAsync();
            return (process.ExitCode, output, await errors);
        }
    }

    public static JsonElement Json(string text) => JsonDocument.Parse(text).RootElement;
}
