using System.Diagnostics;

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
                _ when line.Contains("turns freely by hand", StringComparison.Ordinal) => "2",
                _ => "",
            };
            Send(terminal, keys);
        }

        terminal.WaitForExit();
        string all = string.Join('\n', shown);
        Assert.DoesNotContain("Type  confirmed", all, StringComparison.Ordinal);
        Assert.Contains("answer refused: it must be a number from 1 to 500 g", all, StringComparison.Ordinal);
        Assert.Contains("rotor-mass: 181 g, after ", all, StringComparison.Ordinal);
        Assert.Contains("turns-freely: failed, after ", all, StringComparison.Ordinal);
        Assert.Equal(0, terminal.ExitCode);
        Assert.Equal("completed", _tool.Run("runs", "show", "last", "--json").Json.GetProperty("outcome").GetString());
        Assert.Equal(0, _tool.Run("replay", "last").ExitCode);
    }

    public void Dispose() => _tool.Dispose();

    private static void Send(Process terminal, string keys)
    {
        terminal.StandardInput.Write(keys);
        terminal.StandardInput.Flush();
    }
}
