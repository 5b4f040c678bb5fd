using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace RigControl.EndToEnd.Tests;

/// <summary>From a procedure file to figures, and back from the record.</summary>
public sealed partial class MainJobTests : IDisposable
{
    private readonly Tool _tool = new();

    [Fact]
    public void The_first_command_of_the_README_prints_every_figure_that_the_procedure_names()
    {
        string readme = File.ReadAllText(Path.Combine(Tool.Root, "README.md"));
        string command = FirstCommand().Match(readme).Groups[1].Value;
        const string Program = "dotnet run -c Release --project src/RigControl.Cli -- ";
        Assert.StartsWith(Program, command, StringComparison.Ordinal);
        Said said = _tool.Run(command[Program.Length..].Split(' '));
        Assert.Equal(0, said.ExitCode);
        foreach (string figure in new[] { "spin-up-time", "steady-speed", "tip-speed", "stored-energy", "peak-current", "charge-used", "coast-down-time" })
            Assert.Matches($@"(?m)^{figure}\s+(\d|all)\s+[\d.]+ ± [\d.]+ \S+", said.Output);
        Assert.Contains("(simulated)", said.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void The_same_seed_gives_the_same_document_at_every_pace_but_for_its_name_and_date()
    {
        string[] documents = [.. new[] { "max", "max", "20" }.Select(pace => _tool.Run("run", "--seed", "7", "--json", "--pace", pace)).Select(s => s.Output)];
        Assert.NotEqual(documents[0], documents[1]);
        Assert.Equal(WithoutNameAndDate(documents[0]), WithoutNameAndDate(documents[1]));
        Assert.Equal(WithoutNameAndDate(documents[0]), WithoutNameAndDate(documents[2]));
        foreach (string document in documents)
        {
            string run = JsonDocument.Parse(document).RootElement.GetProperty("run").GetString()!;
            Said replay = _tool.Run("replay", run);
            Assert.Equal(0, replay.ExitCode);
            Assert.Contains("equal bit for bit", replay.Output, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Another_seed_gives_another_run() =>
        Assert.NotEqual(Figures(_tool.Run("run", "--seed", "1", "--json", "--pace", "max")), Figures(_tool.Run("run", "--seed", "2", "--json", "--pace", "max")));

    [Fact]
    public void A_completed_run_is_listed_shown_and_exported()
    {
        Said run = _tool.Run("run", "--json", "--pace", "max");
        string name = run.Json.GetProperty("run").GetString()!;
        Assert.Equal("completed", run.Json.GetProperty("outcome").GetString());
        Assert.True(run.Json.GetProperty("simulated").GetBoolean());
        Assert.Contains(name, _tool.Run("runs").Output, StringComparison.Ordinal);
        Assert.Equal(name, _tool.Run("runs", "list", "--json").Json[0].GetProperty("run").GetString());
        Assert.Equal(WithoutNameAndDate(run.Output), WithoutNameAndDate(_tool.Run("runs", "show", name[..4], "--json").Output));
        ExportIsATrace(_tool.Run("runs", "export", "last", "--format", "csv").Output);
    }

    [Fact]
    public void The_states_of_a_run_come_in_the_order_of_its_steps()
    {
        JsonElement states = _tool.Run("run", "--json", "--pace", "max").Json.GetProperty("states");
        string[] repeat = ["Arming", "SpinUp", "Hold", "CoastDown", "Idle"];
        Assert.Equal(["SafeStop", "Idle", .. repeat, .. repeat, .. repeat], states.EnumerateArray().Select(s => s.GetProperty("state").GetString()));
    }

    [Fact]
    public void Figures_agree_with_the_samples_they_came_from()
    {
        Said run = _tool.Run("run", "--json", "--pace", "max");
        double[] speed = Column(_tool.Run("runs", "export", "last").Output, "rotor.speed [rpm]");
        double peak = run.Json.GetProperty("figures").EnumerateArray()
            .Where(f => f.GetProperty("name").GetString() == "tip-speed").Max(f => f.GetProperty("value").GetDouble());
        // The highest of many readings that scatter stands above the speed behind them by a little.
        double highest = speed.Max() * 2 * Math.PI / 60 * 0.045;
        Assert.InRange(peak, 0.997 * highest, highest);
    }

    [Fact]
    public void The_sample_files_are_in_order()
    {
        string[] files = [.. Directory.GetFiles(Path.Combine(Tool.Root, "procedures"), "*.yaml").Order()];
        Said said = _tool.Run(["check", .. files]);
        Assert.Equal("", said.Errors);
        Assert.Contains("are in order", said.Output, StringComparison.Ordinal);
        Assert.Equal(0, said.ExitCode);
    }

    [Fact]
    public void Installed_plugins_are_listed_with_what_they_make()
    {
        JsonElement plugins = _tool.Run("plugins", "--json").Json.GetProperty("plugins");
        string[] kinds = [.. plugins.EnumerateArray().SelectMany(p => p.GetProperty("devices").EnumerateArray()).Select(d => d.GetProperty("kind").GetString()!)];
        Assert.Contains("simulated-rig", kinds);
        Assert.Contains("rig-board", kinds);
        Assert.All(plugins.EnumerateArray(), p => Assert.Equal("1.2", p.GetProperty("contract").GetString()));
    }

    public void Dispose() => _tool.Dispose();

    private static void ExportIsATrace(string csv)
    {
        string[] lines = csv.TrimEnd().Split('\n');
        Assert.StartsWith("time [s],", lines[0], StringComparison.Ordinal);
        double last = -1;
        foreach (string line in lines[1..])
        {
            string[] cells = line.TrimEnd('\r').Split(',');
            Assert.Equal(lines[0].Split(',').Length, cells.Length);
            double time = double.Parse(cells[0], CultureInfo.InvariantCulture);
            Assert.True(time > last, $"time goes back at {line}");
            last = time;
        }
    }

    private static double[] Column(string csv, string name)
    {
        string[] lines = csv.TrimEnd().Split('\n');
        int column = Array.IndexOf(lines[0].TrimEnd('\r').Split(','), name);
        return [.. lines[1..].Select(l => l.Split(',')[column].Trim()).Where(c => c.Length > 0).Select(c => double.Parse(c, CultureInfo.InvariantCulture))];
    }

    private static string Figures(Said said) => said.Json.GetProperty("figures").GetRawText();

    private static string WithoutNameAndDate(string json) => NameOrDate().Replace(json, "");

    [GeneratedRegex("""(?m)^\s*"(run|startedAt)": ".*",$""")]
    private static partial Regex NameOrDate();

    [GeneratedRegex(@"```sh\s+(.*?)\s*```", RegexOptions.Singleline)]
    private static partial Regex FirstCommand();
}
