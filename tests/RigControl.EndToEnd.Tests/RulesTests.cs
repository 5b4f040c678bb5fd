using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>A run held against limits that its builder copied, as its user asks.</summary>
public sealed class RulesTests : IDisposable
{
    private const string Copied = """
        rules: evening
        limits:
          class-mass: { value: 200 g, source: "section 2", date: 2026-05-31 }
          tip-speed: { value: 50 m/s, source: "section 5", date: 2026-05-31 }
          voltage: { value: 15 V, source: "section 7", date: 2026-05-31 }

        """;

    private readonly Tool _tool = new();

    public void Dispose() => _tool.Dispose();

    [Fact]
    public void Each_limit_has_its_verdict_and_something_outside_ends_with_6()
    {
        string rules = _tool.Write("evening.rules.yaml", Copied), run = _tool.Enter("mass=182 g", "tip-speed=50.0 m/s");
        Said told = _tool.Run("rules", rules, run);
        Assert.Equal(0, told.ExitCode);
        Assert.Contains("class-mass: limit 0.2 kg (section 2, 2026-05-31): inside: mass 182", told.Output, StringComparison.Ordinal);
        Assert.Contains("tip-speed: limit 50 m/s (section 5, 2026-05-31): too close to call", told.Output, StringComparison.Ordinal);
        Assert.Contains("voltage: limit 15 V (section 7, 2026-05-31): not judged, since the run has no peak-voltage", told.Output, StringComparison.Ordinal);
        string heavy = _tool.Enter("mass=210 g");
        Said outside = _tool.Run("rules", rules, heavy, "--json");
        Assert.Equal(6, outside.ExitCode);
        JsonElement limit = outside.Json.GetProperty("limits")[0];
        Assert.Equal("outside", limit.GetProperty("verdict").GetString());
        Assert.Equal(0.21, limit.GetProperty("found").GetDouble(), 1e-9);
        Assert.Equal(JsonValueKind.Null, outside.Json.GetProperty("limits")[1].GetProperty("verdict").ValueKind);
    }

    [Fact]
    public void A_recorded_run_is_judged_by_its_own_figures_and_marked_where_it_was_simulated()
    {
        string procedure = _tool.Write("spin.yaml", ToolRuns.Changed("enclosed-spin-up.yaml", "figures: [", "figures: [peak-voltage, "));
        string run = _tool.Record(procedure, Path.Combine("procedures", "disc-180.article.yaml"));
        Said told = _tool.Run("rules", _tool.Write("evening.rules.yaml", Copied), run);
        Assert.Equal(0, told.ExitCode);
        Assert.Contains("(simulated: it says nothing of a real machine)", told.Output, StringComparison.Ordinal);
        Assert.Contains("(section 5, 2026-05-31): inside: tip-speed", told.Output, StringComparison.Ordinal);
        Assert.Contains("(section 7, 2026-05-31): inside: peak-voltage 12.", told.Output, StringComparison.Ordinal);
        Assert.Contains("(section 2, 2026-05-31): not judged", told.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_limit_without_its_day_a_file_that_is_not_there_and_an_unknown_run_are_said()
    {
        string run = _tool.Enter("mass=182 g"), undated = _tool.Write("undated.rules.yaml", Copied.Replace(", date: 2026-05-31", "", StringComparison.Ordinal));
        Said said = _tool.Run("rules", undated, run);
        Assert.Equal(2, said.ExitCode);
        Assert.Contains("has no `date`", said.Errors, StringComparison.Ordinal);
        Assert.Equal(2, _tool.Run("rules", "nowhere.rules.yaml", run).ExitCode);
        Assert.Equal(2, _tool.Run("rules", _tool.Write("evening.rules.yaml", Copied), "nobody").ExitCode);
        Said blank = _tool.Run("rules", "procedures/blank.rules.yaml", run);
        Assert.Equal(0, blank.ExitCode);
        Assert.Contains("blank holds no limits yet", blank.Output, StringComparison.Ordinal);
    }
}
