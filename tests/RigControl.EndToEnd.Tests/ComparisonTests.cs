using System.Text.Json;

namespace RigControl.EndToEnd.Tests;

/// <summary>Whether a change helped, as its user asks: comparison by runs, tags and dates, trend and plan.</summary>
public sealed class ComparisonTests : IDisposable
{
    private readonly Tool _tool = new();

    public void Dispose() => _tool.Dispose();

    [Fact]
    public void A_comparison_tells_a_change_from_noise_and_exits_with_6_where_asked_to()
    {
        string[] runs = ["2.00 2.01 1.99", "1.80 1.81 1.79"];
        for (int i = 0; i < runs.Length; i++)
        {
            foreach (string value in runs[i].Split(' '))
                Assert.Equal(0, _tool.Run("runs", "tag", _tool.Enter($"spin-up-time={value} s", "mass=180.0 g"), i == 0 ? "old" : "new").ExitCode);
        }

        Said said = _tool.Run("runs", "compare", "tag:old", "tag:new", "--json", "--fail-on-change");
        Assert.Equal(6, said.ExitCode);
        JsonElement figure = said.Json.GetProperty("figures")[0];
        Assert.Equal("spin-up-time", figure.GetProperty("name").GetString());
        Assert.Equal(-0.2, figure.GetProperty("difference").GetDouble(), 1e-9);
        Assert.Contains("shorter by 10", figure.GetProperty("verdict").GetString(), StringComparison.Ordinal);
        Assert.Contains("more than noise", figure.GetProperty("verdict").GetString(), StringComparison.Ordinal);
        Assert.Contains("no difference seen", said.Json.GetProperty("figures")[1].GetProperty("verdict").GetString(), StringComparison.Ordinal);
        Assert.NotEmpty(said.Json.GetProperty("conditions").EnumerateArray());
        Assert.Equal(0, _tool.Run("runs", "compare", "tag:old", "tag:new").ExitCode);
        Assert.Equal(2, _tool.Run("runs", "compare", "tag:old", "tag:nobody").ExitCode);
        Assert.Equal(2, _tool.Run("runs", "compare", "tag:old").ExitCode);
        Assert.Equal(2, _tool.Run("runs", "compare", "tag:old", "tag:old").ExitCode);
        JsonElement trend = _tool.Run("runs", "trend", "spin-up-time", "--article", "disc-180", "--json").Json;
        Assert.Equal(6, trend.GetProperty("points").GetArrayLength());
        Assert.True(trend.GetProperty("points")[3].GetProperty("outside").GetBoolean());
        JsonElement plan = _tool.Run("plan", "old", "new", "--figure", "spin-up-time", "--scatter", "0.05", "--resolution", "5 %", "--json").Json;
        Assert.Equal(["old", "new", "new", "old"], plan.GetProperty("order").EnumerateArray().Take(4).Select(o => o.GetString()!));
    }

    [Fact]
    public void Groups_by_date_are_compared_and_a_trend_never_mixes_simulated_and_real_runs()
    {
        foreach ((string day, string values) in new[] { ("2031-05-04", "2.00,2.01 s"), ("2031-05-05", "2.01,1.99 s"), ("2031-06-01", "1.80,1.81 s"), ("2031-06-02", "1.79,1.80 s") })
            Assert.Equal(0, _tool.Run("enter", $"spin-up-time={values}", "--article", "disc-180", "--at", $"{day}T12:00Z").ExitCode);
        Assert.Equal(0, _tool.Simulate().ExitCode);
        JsonElement compared = _tool.Run("runs", "compare", "date:2031-05-04..2031-05-05", "date:2031-06-01..2031-06-30", "--json").Json;
        Assert.Equal(2, compared.GetProperty("figures")[0].GetProperty("valuesA").GetInt32());
        Assert.Contains("shorter by", compared.GetProperty("figures")[0].GetProperty("verdict").GetString(), StringComparison.Ordinal);
        Assert.Equal(2, _tool.Run("runs", "compare", "date:2031-07-01", "date:2031-06-01").ExitCode);
        Assert.Equal(2, _tool.Run("runs", "compare", "date:yesterday", "date:2031-06-01").ExitCode);
        JsonElement trend = _tool.Run("runs", "trend", "spin-up-time", "--article", "disc-180", "--json").Json;
        Assert.False(trend.GetProperty("simulated").GetBoolean());
        Assert.Equal(4, trend.GetProperty("points").GetArrayLength());
        Assert.True(_tool.Run("runs", "trend", "steady-speed", "--article", "disc-180", "--json").Json.GetProperty("simulated").GetBoolean());
    }

    [Fact]
    public void A_bearing_on_its_way_out_shows_as_a_coast_down_that_creeps_down_within_its_band()
    {
        double[] seconds = [10.5, 10.4, 10.6, 10.5, 10.5, 10.4, 10.6, 10.5, 10.45, 10.42, 10.4, 10.38, 10.36, 10.35, 10.33, 10.31];
        for (int day = 0; day < seconds.Length; day++)
            Assert.Equal(0, _tool.Run("enter", FormattableString.Invariant($"coast-down-time={seconds[day]} s"), "--article", "disc-180", "--at", $"2031-05-{day + 1:00}T12:00Z").ExitCode);
        Said told = _tool.Run("runs", "trend", "coast-down-time", "--article", "disc-180");
        string[] lines = told.Output.TrimEnd().Split('\n');
        Assert.Equal(0, told.ExitCode);
        Assert.Equal("coast-down-time has been creeping down for longer than chance explains: look for what wears", lines[^1]);
        Assert.EndsWith("10.31  expected 10.19 to 10.71  CREEPING DOWN", lines[^2], StringComparison.Ordinal);
        Assert.Equal(1, lines.Count(l => l.Contains("CREEPING", StringComparison.Ordinal) && l.StartsWith("2031", StringComparison.Ordinal)));
        Assert.DoesNotContain("OUTSIDE", told.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_comparison_of_two_runs_splits_the_spin_up_by_cause_in_text_json_and_report()
    {
        string heavy = _tool.Write("heavy.article.yaml", ToolRuns.Changed("disc-180.article.yaml", "0.00018225 kg.m2", "0.00025 kg.m2"));
        string quick = _tool.Write("quick.yaml", ToolRuns.Changed("enclosed-spin-up.yaml", "ramp: 2 s", "ramp: 0.5 s"));
        string first = _tool.Record(quick, Path.Combine("procedures", "disc-180.article.yaml")), second = _tool.Record(quick, heavy);
        Said said = _tool.Run("runs", "compare", first, second, "--json");
        JsonElement why = Assert.Single(said.Json.GetProperty("whySlower").EnumerateArray());
        Dictionary<string, double> parts = why.GetProperty("parts").EnumerateArray().ToDictionary(p => p.GetProperty("cause").GetString()!, p => p.GetProperty("seconds").GetDouble());
        double difference = why.GetProperty("b").GetDouble() - why.GetProperty("a").GetDouble();
        Assert.Equal(difference, parts.Values.Sum(), 1e-9);
        Assert.InRange(parts["inertia"], 0.7 * difference, 1.3 * difference);
        Assert.Matches(@"why: the spin-up to \d+ rpm takes 0\.\d+ ± 0\.\d+ s longer: inertia \+0\.", _tool.Run("runs", "compare", first, second).Output);
        string page = _tool.Run("report", first, second, "--output", "-").Output;
        Assert.Contains("<h2>Why the spin-up differs</h2>", page, StringComparison.Ordinal);
        Assert.Contains("<td>inertia</td>", page, StringComparison.Ordinal);
    }

    [Fact]
    public void A_spin_up_that_cannot_be_split_says_why_and_parts_changed_between_stand_beside_it()
    {
        string first = _tool.Enter("spin-up-time=2.00,2.01 s"), second = _tool.Enter("spin-up-time=1.80,1.81 s");
        Assert.Equal(0, _tool.Run("runs", "part", second, "belt", "the shorter one").ExitCode);
        Said said = _tool.Run("runs", "compare", first, second);
        Assert.Contains($"cannot be told by cause: run {first} has typed readings and no trace", said.Output, StringComparison.Ordinal);
        Assert.Contains($"changed before run {second}: belt: the shorter one", said.Output, StringComparison.Ordinal);
        JsonElement json = _tool.Run("runs", "compare", first, second, "--json").Json;
        Assert.Equal(JsonValueKind.Null, json.GetProperty("whySlower")[0].GetProperty("parts").ValueKind);
        Assert.Equal("belt", json.GetProperty("parts")[0].GetProperty("part").GetString());
        string page = _tool.Run("report", first, second, "--output", "-").Output;
        Assert.Contains("This cannot be told: run", page, StringComparison.Ordinal);
        Assert.Contains("belt: the shorter one", page, StringComparison.Ordinal);
        Assert.Empty(_tool.Run("runs", "compare", _tool.Enter("mass=180 g"), _tool.Enter("mass=181 g"), "--json").Json.GetProperty("whySlower").EnumerateArray());
    }

    [Fact]
    public void A_comparison_minds_the_pack_and_the_enclosure_that_differ_and_no_comment()
    {
        string article = Path.Combine("procedures", "disc-180.article.yaml"), procedure = Path.Combine("procedures", "enclosed-spin-up.yaml");
        string larger = _tool.Write("larger.article.yaml", ToolRuns.Changed("disc-180.article.yaml", "capacity: 1300 mAh", "capacity: 1500 mAh"));
        string weaker = _tool.Write("weaker.rig.yaml", ToolRuns.Changed("simulated.rig.yaml", "rating: 400 J", "rating: 200 J"));
        string told = _tool.Write("told.rig.yaml", File.ReadAllText(Path.Combine(Tool.Root, "procedures", "simulated.rig.yaml")) + "# the lid squeaks\n");
        string first = _tool.Record(procedure, article), second = _tool.Record(procedure, larger, weaker), third = _tool.Record(procedure, article, told);
        string[] minded = [.. _tool.Run("runs", "compare", first, second, "--json").Json.GetProperty("conditions").EnumerateArray().Select(c => c.GetString()!)];
        Assert.Contains("the article files differ in pack (capacity: 1300 mAh against capacity: 1500 mAh)", minded);
        Assert.Contains(minded, m => m.StartsWith("the rig files differ in enclosure", StringComparison.Ordinal));
        Assert.DoesNotContain("files differ", _tool.Run("runs", "compare", first, third).Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_plan_goes_on_only_when_a_swap_is_said_to_be_done_and_takes_the_step_between_two_states_for_no_scatter()
    {
        foreach (string value in new[] { "2.000", "2.002", "1.998" })
            Assert.Equal(0, _tool.Run("runs", "tag", _tool.Enter($"spin-up-time={value} s"), "old").ExitCode);
        foreach (string value in new[] { "1.800", "1.802", "1.798" })
            Assert.Equal(0, _tool.Run("runs", "tag", _tool.Enter($"spin-up-time={value} s"), "new").ExitCode);
        string[] plan = ["plan", "old", "new", "--figure", "spin-up-time", "--resolution", "1 %"];
        JsonElement laid = _tool.Run([.. plan, "--json"]).Json;
        Assert.Equal(0.002, laid.GetProperty("scatter").GetDouble(), 1e-6);
        Assert.Equal(3, laid.GetProperty("runsEach").GetInt32());

        Said left = _tool.Run([.. plan, "--guide"]);
        Assert.Equal(2, left.ExitCode);
        Assert.Contains("1. fit old", left.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("2. swap to new", left.Output, StringComparison.Ordinal);
        using System.Diagnostics.Process guided = _tool.Begin([.. plan, "--guide"]);
        for (int i = 0; i < 6; i++)
            guided.StandardInput.WriteLine();
        Said done = Tool.End(guided);
        Assert.Equal(0, done.ExitCode);
        Assert.Contains("2. swap to new", done.Output, StringComparison.Ordinal);
        Assert.Contains("3. leave new in", done.Output, StringComparison.Ordinal);
        Assert.Contains("runs compare tag:old tag:new", done.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_plan_says_how_alike_the_pack_must_be_from_the_runs_that_read_it()
    {
        Assert.Equal(0, _tool.Simulate().ExitCode);
        string[] plan = ["plan", "old", "new", "--figure", "steady-speed", "--resolution", "2 %", "--scatter", "50"];
        JsonElement pack = _tool.Run([.. plan, "--json"]).Json.GetProperty("pack");
        // A quarter of 2 % of a full pack of three cells.
        Assert.Equal(0.005 * 12.6, pack.GetProperty("within").GetDouble(), 0.001);
        Assert.InRange(pack.GetProperty("from").GetDouble(), 12.5, 12.7);
        Assert.Contains("within 0.06 V of each other at rest", _tool.Run(plan).Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_simulated_run_is_never_compared_with_a_real_one()
    {
        Assert.Equal(0, _tool.Simulate().ExitCode);
        string real = _tool.Enter("steady-speed=7400,7401 rpm");
        string simulated = _tool.Run("runs", "--json").Json.EnumerateArray().First(r => r.GetProperty("simulated").GetBoolean()).GetProperty("run").GetString()!;
        Said said = _tool.Run("runs", "compare", simulated, real);
        Assert.Equal(2, said.ExitCode);
        Assert.Contains("never compared", said.Errors, StringComparison.Ordinal);
    }
}
