using System.Diagnostics;
using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>Readings and trials typed at a terminal.</summary>
public sealed class QuestionTests : IDisposable
{
    private const string Weighing = """
        procedure: weighing
        requires: []
        steps:
          - ask: { name: rotor-mass, question: mass of the rotor on the scale, resolution: 1 g, lowest: 1 g, highest: 500 g }
          - trial: { name: turns-freely, question: turns freely by hand }
        """;

    private readonly Tool _tool = new();

    [Fact]
    public void A_reading_out_of_range_is_refused_with_its_range_and_the_right_one_is_recorded()
    {
        using Process terminal = _tool.Type("run", _tool.Write("weighing.yaml", Weighing), "--operator", "terminal");
        List<string> shown = [];
        while (terminal.StandardOutput.ReadLine() is { } line)
        {
            shown.Add(line);
            string keys = line switch
            {
                _ when line.Contains("state    safe-stop", StringComparison.Ordinal) || line.Contains("reset refused", StringComparison.Ordinal) => "r",
                _ when line.Contains("mass of the rotor", StringComparison.Ordinal) => "1811\n",
                _ when line.Contains("from 1 to 500 g", StringComparison.Ordinal) => "19\b81\n",
                _ when line.Contains("turns freely by hand", StringComparison.Ordinal) => "nscrapes at one place\n2",
                _ => "",
            };
            Send(terminal, keys);
        }

        terminal.WaitForExit();
        string all = string.Join('\n', shown);
        Assert.DoesNotContain("Type  confirmed", all, StringComparison.Ordinal);
        Assert.Contains("answer refused: it must be a number from 1 to 500 g", all, StringComparison.Ordinal);
        Assert.Contains("rotor-mass: 181 g, after ", all, StringComparison.Ordinal);
        Assert.Contains("note on turns-freely: scrapes at one place", all, StringComparison.Ordinal);
        Assert.Contains("turns-freely: failed, after ", all, StringComparison.Ordinal);
        Assert.Equal(0, terminal.ExitCode);
        JsonElement run = _tool.Run("runs", "show", "last", "--json").Json;
        Assert.Equal("completed", run.GetProperty("outcome").GetString());
        JsonElement note = run.GetProperty("notes").EnumerateArray().Single();
        Assert.Equal(("turns-freely", "scrapes at one place"), (note.GetProperty("about").GetString(), note.GetProperty("text").GetString()));
        Assert.Equal(0, _tool.Run("replay", "last").ExitCode);
    }

    [Fact]
    public void Typed_readings_and_counted_trials_become_figures()
    {
        string file = _tool.Write("weighing.yaml", Weighing.Replace("requires: []", "repeat: 3\nrequires: []\nfigures: [mass, success-rate]", StringComparison.Ordinal));
        JsonElement[] figures = [.. _tool.Run("run", file, "--json", "--pace", "max").Json.GetProperty("figures").EnumerateArray()];
        Assert.Equal(["mass", "success-rate"], figures.Select(f => f.GetProperty("name").GetString()));
        // The scripted operator reads the middle of the range and passes every trial.
        Assert.Equal(250.5, figures[0].GetProperty("value").GetDouble(), 9);
        Assert.Equal("g", figures[0].GetProperty("unit").GetString());
        Assert.Equal(1 / Math.Sqrt(12), figures[0].GetProperty("standardUncertainty").GetDouble(), 9);
        Assert.Contains("3 readings of rotor-mass", figures[0].GetProperty("method").GetString(), StringComparison.Ordinal);
        Assert.Equal(100, figures[1].GetProperty("value").GetDouble());
        // None of three failed: half of p³ is 0.025.
        Assert.Equal(100 * Math.Cbrt(0.05), figures[1].GetProperty("interval95")[0].GetDouble(), 6);
    }

    public void Dispose() => _tool.Dispose();

    private static void Send(Process terminal, string keys)
    {
        terminal.StandardInput.Write(keys);
        terminal.StandardInput.Flush();
    }
}
