using System.Globalization;
using RigControl.Board.Simulator.Line;
using RigControl.Board.Simulator.Reactions;

namespace RigControl.Board.Tests.Reactions;

/// <summary>The page of measured reactions has a line for everything that is measured, within what is allowed.</summary>
public sealed class ReactionPageTests
{
    [Fact]
    public void The_page_has_a_line_for_everything_that_must_stop_the_output_each_within_its_time()
    {
        string[][] rows = [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "board-reactions.md"))
            .Select(l => l.Split('|', StringSplitOptions.TrimEntries)).Where(c => c.Length == 10 && c[4] is "alive" or "dead")];
        IEnumerable<string> measured = ReactionTable.All.SelectMany(m => ReactionTable.Rates.SelectMany(rate => Lines(m.Provocation, rate, m.AlsoDead)));
        Assert.Equal(measured, rows.Select(c => string.Join(' ', c[1], c[2], c[3], c[4], c[6])));
        Assert.All(rows, c => Assert.InRange(double.Parse(c[5], CultureInfo.InvariantCulture), 0.01, double.Parse(c[6], CultureInfo.InvariantCulture)));
    }

    private static IEnumerable<string> Lines(Provocation provocation, int rate, bool alsoDead)
    {
        BoardConfiguration configuration = provocation.Output.On(ReactionTable.Configuration(rate));
        foreach (string host in alsoDead ? new[] { "alive", "dead" } : ["alive"])
            yield return FormattableString.Invariant($"{provocation.Name} {provocation.Event} {rate} {host} {provocation.Allowed(configuration):F1}");
    }
}
