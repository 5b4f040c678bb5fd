using System.Diagnostics;

namespace RigControl.EndToEnd.Tests;

/// <summary>
/// The n-th call on the logbook's files fails, for growing n until a whole run no longer comes to it, once passing and once lasting:
/// the output is stopped, a sentence says what happened, and the file is sound.
/// </summary>
public sealed class NthFileFailureTests : IDisposable
{
    private const int NoSpace = 28;
    private const int InputOutput = 5;
    private const int Again = 11;
    private const int ReadOnly = 30;
    private const string Short = """
        procedure: short
        requires: [lid-closed]
        steps:
          - arm:
          - spin-up: { throttle: 20 %, ramp: 0.5 s, until: { channel: rotor.speed, above: 500 rpm }, timeout: 8 s }
          - hold: { for: 2 s }
          - coast-down: { timeout: 60 s }
        figures: [peak-speed]
        """;

    private static readonly string Shim = Build();

    private readonly Tool _tool = new();

    [Theory]
    [InlineData("write", NoSpace, false)]
    [InlineData("write", NoSpace, true)]
    [InlineData("write", InputOutput, false)]
    [InlineData("write", InputOutput, true)]
    [InlineData("sync", InputOutput, false)]
    [InlineData("sync", InputOutput, true)]
    [InlineData("open", InputOutput, false)]
    [InlineData("open", InputOutput, true)]
    [InlineData("truncate", InputOutput, true)]
    [InlineData("write", ReadOnly, true)]
    [InlineData("open", ReadOnly, true)]
    [InlineData("torn", NoSpace, false)]
    [InlineData("torn", NoSpace, true)]
    [InlineData("torn", InputOutput, true)]
    [InlineData("read", InputOutput, false)]
    [InlineData("read", InputOutput, true)]
    [InlineData("lock", Again, false)]
    [InlineData("lock", Again, true)]
    public void Whatever_file_operation_fails_the_rig_stops_with_a_sentence_and_the_logbook_is_sound(string call, int error, bool lasts)
    {
        string procedure = _tool.Write("short.yaml", Short);
        int reached = 0;
        bool more = true;
        for (int n = 1; more && n < 4000; n = n < 6 ? n + 1 : n * 2)
        {
            string logbook = Path.Combine(_tool.Folder, $"nth-{call}-{error}-{lasts}-{n}.sqlite"), seen = logbook + ".seen";
            Said said = Run(procedure, logbook, seen, call, error, n, lasts);
            more = File.Exists(seen);
            reached += more ? 1 : 0;
            string which = $"{call} {n}, error {error}, {(lasts ? "lasting" : "once")}: exit {said.ExitCode}: {said.Errors}";
            Assert.True(said.ExitCode is 0 or 4 or 5, which);
            Assert.True(said.ExitCode == 0 || said.Errors.Contains("ogbook", StringComparison.Ordinal) || said.Errors.Contains("record", StringComparison.Ordinal), which);
            Assert.True(Stopped(said.Errors), which);
            AssertSound(logbook, which);
        }

        Assert.False(more, "the loop ended before the run no longer came to the call");
        Assert.True(reached > 0 || call is "truncate" or "sync", $"no {call} was ever made");
    }

    public void Dispose() => _tool.Dispose();

    // What was told last of the rig's state is no state in which anything turns on.
    private static bool Stopped(string told)
    {
        string? last = told.Split('\n').LastOrDefault(l => l.Contains(" s  state    ", StringComparison.Ordinal));
        return last is null || last.Contains("safe-stop", StringComparison.Ordinal) || last.Contains("idle", StringComparison.Ordinal);
    }

    // Read without the failure: either there is no logbook yet, or everything in it holds together.
    private void AssertSound(string logbook, string which)
    {
        if (!File.Exists(logbook) || new FileInfo(logbook).Length == 0)
            return;
        Said verified = _tool.Run("logbook", "verify", "--logbook", logbook);
        Assert.True(verified.ExitCode == 0, $"{which}\n{verified.Output}{verified.Errors}");
    }

    private Said Run(string procedure, string logbook, string seen, string call, int error, int n, bool lasts)
    {
        ProcessStartInfo start = new("dotnet", [Tool.Program, "run", procedure, "--rig", "procedures/simulated.rig.yaml", "--article", "procedures/disc-180.article.yaml", "--operator", "scripted", "--pace", "max", "--logbook", logbook])
        {
            RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = Tool.Root,
        };
        start.Environment["LD_PRELOAD"] = Shim;
        start.Environment["FAIL_PATH"] = Path.GetFileName(logbook);
        start.Environment["FAIL_CALL"] = call;
        start.Environment["FAIL_AT"] = n.ToString(System.Globalization.CultureInfo.InvariantCulture);
        start.Environment["FAIL_ERRNO"] = error.ToString(System.Globalization.CultureInfo.InvariantCulture);
        start.Environment["FAIL_SEEN"] = seen;
        if (lasts)
            start.Environment["FAIL_LASTS"] = "1";
        start.Environment["NO_COLOR"] = "1";
        using Process process = Process.Start(start)!;
        return Tool.End(process);
    }

    private static string Build()
    {
        string shim = Path.Combine(AppContext.BaseDirectory, "nth.so");
        string source = Path.Combine(Tool.Root, "tests", "RigControl.EndToEnd.Tests", "Native", "nth.c");
        using Process compiler = Process.Start(new ProcessStartInfo("gcc", ["-shared", "-fPIC", "-O1", "-o", shim, source, "-ldl"]) { RedirectStandardError = true })!;
        string errors = compiler.StandardError.ReadToEnd();
        compiler.WaitForExit();
        Assert.True(compiler.ExitCode == 0, errors);
        return shim;
    }
}
